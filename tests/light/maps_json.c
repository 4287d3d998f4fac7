/* maps_json BEAMS.json WHOLE.json TILT.json PICTURE.svg: what lapwing light writes of its maps.
 * BEAMS and WHOLE (its --json) are of one stone of this size and pose, TILT of the same cut; the
 * SVG is of the beams. Prints each fault; ends in 1 when there is one. */
#include <expat.h>
#include <jansson.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static int faults;

static void check(bool good, const char *what, double value)
{
    if (!good) {
        printf("%s: %.12g\n", what, value);
        faults++;
    }
}

static json_t *load(const char *path)
{
    json_error_t error;
    json_t *object = json_load_file(path, 0, &error);
    if (object == NULL) {
        printf("%s:%d: %s\n", path, error.line, error.text);
        faults++;
    }
    return object;
}

static double number(const json_t *object, const char *key)
{
    const json_t *value = json_object_get(object, key);
    if (!json_is_number(value)) {
        printf("no number %s\n", key);
        faults++;
        return (double)NAN;
    }
    return json_number_value(value);
}

/* Twice the area, counter-clockwise positive. */
static double twice_area(const json_t *outline)
{
    double twice = 0.0;
    size_t count = json_array_size(outline);
    for (size_t i = 0; i < count; i++) {
        const json_t *p = json_array_get(outline, i), *q = json_array_get(outline, (i + 1) % count);
        double px = json_number_value(json_array_get(p, 0));
        double py = json_number_value(json_array_get(p, 1));
        double qx = json_number_value(json_array_get(q, 0));
        double qy = json_number_value(json_array_get(q, 1));
        twice += px * qy - py * qx;
    }
    return twice;
}

static double widest(const json_t *outline)
{
    double most = 0.0;
    for (size_t i = 0; i < json_array_size(outline); i++) {
        const json_t *p = json_array_get(outline, i);
        double x = json_number_value(json_array_get(p, 0));
        double y = json_number_value(json_array_get(p, 1));
        most = fmax(most, hypot(x, y));
    }
    return most;
}

/* worked: the star at tooth 6 of 96 stands 22.5 degrees counter-clockwise from the top. */
static void star_stands_where_it_should(const json_t *patch, const json_t *outline)
{
    const json_t *through = json_object_get(patch, "seen_through");
    if (strcmp(json_string_value(json_object_get(through, "name")), "star") != 0 ||
        number(through, "tooth") != 6.0) {
        return;
    }
    const json_t *p = json_array_get(outline, 0);
    double x = json_number_value(json_array_get(p, 0));
    double y = json_number_value(json_array_get(p, 1));
    double from_top = atan2(-x, y) * 180.0 / 3.14159265358979323846;
    check(from_top > 0.0 && from_top < 45.0, "star at tooth 6: degrees from the top", from_top);
}

static void check_source(const json_t *patch)
{
    const char *source = json_string_value(json_object_get(patch, "source"));
    const json_t *up = json_object_get(patch, "from_elevation_deg");
    double elevation = json_number_value(up);
    if (strcmp(source, "head") == 0) {
        check(elevation > 80.0 - 1e-9, "head at an elevation of", elevation);
    } else if (strcmp(source, "below") == 0) {
        check(elevation < 0.0, "below at an elevation of", elevation);
    } else if (strcmp(source, "sky") == 0) {
        check(elevation >= 0.0 && elevation < 80.0 + 1e-9, "sky at an elevation of", elevation);
    } else {
        check(strcmp(source, "nothing") == 0 && json_is_null(up), source, 0.0);
    }
}

typedef struct totals {
    double face, bright, area, widest;
} totals;

static totals add_up(const json_t *patches)
{
    totals sum = {0};
    for (size_t i = 0; i < json_array_size(patches); i++) {
        const json_t *patch = json_array_get(patches, i);
        const json_t *outline = json_object_get(patch, "outline_mm");
        sum.face += number(patch, "face");
        sum.bright += number(patch, "face") * number(patch, "brightness");
        sum.area += 0.5 * fabs(twice_area(outline));
        sum.widest = fmax(sum.widest, widest(outline));
        star_stands_where_it_should(patch, outline);
        check_source(patch);
    }
    return sum;
}

/* worked: patches cover the face once, each by its share; an 8 mm round across its flats has its
 * corners at 4 / cos 11.25 degrees. */
static size_t check_beams(const json_t *beams, const json_t *whole)
{
    const json_t *patches = json_object_get(beams, "patches");
    size_t count = json_array_size(patches);
    check(count > 100, "patches", (double)count);
    totals sum = add_up(patches);
    check(fabs(sum.face - 1.0) < 1e-9, "shares of the face come to", sum.face);
    check(fabs(sum.bright - number(whole, "brightness")) < 2e-3, "brightness of the patches",
          sum.bright);
    check(fabs(sum.widest - 4.0 / cos(11.25 * 3.14159265358979323846 / 180.0)) < 1e-6,
          "the furthest corner, mm", sum.widest);
    for (size_t i = 0; i < count; i++) {
        const json_t *patch = json_array_get(patches, i);
        double share = 0.5 * fabs(twice_area(json_object_get(patch, "outline_mm"))) / sum.area;
        check(fabs(share - number(patch, "face")) < 1e-9, "a patch's area less its share",
              share - number(patch, "face"));
    }
    return count;
}

static void check_steps(const json_t *whole)
{
    const json_t *steps = json_object_get(whole, "steps");
    double face = 0.0, bright = 0.0, lights = 0.0, leaks = 0.0;
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *step = json_array_get(steps, i);
        face += number(step, "face");
        bright += number(step, "bright");
        lights += number(step, "lights");
        leaks += number(step, "leaks");
    }
    check(json_array_size(steps) == 7, "steps", (double)json_array_size(steps));
    check(fabs(face - 1.0) < 1e-9, "faces of the steps come to", face);
    double given = number(whole, "brightness"), error = 2.0 * number(whole, "error_est") + 1e-3;
    check(fabs(bright - given) < error, "brightness seen through the steps", bright);
    check(lights <= bright + 1e-9 && lights > bright - 0.02, "brightness by the steps", lights);
    check(fabs(leaks - number(whole, "leak")) < 0.02, "leak by the steps", leaks);
}

static double cell(const json_t *rows, size_t ring, size_t spoke)
{
    return json_number_value(json_array_get(json_array_get(rows, ring), spoke));
}

/* worked: straight from above all directions are one; an eight-fold mirrored stone looks the same
 * an eighth of the way round, and the other way round. */
static void check_tilt(const json_t *tilt, const json_t *whole)
{
    const json_t *bright = json_object_get(tilt, "brightness");
    size_t rings = json_array_size(json_object_get(tilt, "tilt_deg"));
    size_t spokes = json_array_size(json_object_get(tilt, "turn_deg"));
    check(rings == 17 && json_array_size(bright) == rings, "rings", (double)rings);
    check(spokes == 48, "spokes", (double)spokes);
    check(fabs(cell(bright, 0, 5) - number(whole, "brightness")) < 1e-12, "face-up",
          cell(bright, 0, 5));
    for (size_t ring = 0; ring < rings; ring++) {
        for (size_t spoke = 0; spoke < spokes; spoke++) {
            double here = cell(bright, ring, spoke);
            check(here == cell(bright, ring, (spoke + spokes / 8) % spokes), "an eighth on", here);
            check(here == cell(bright, ring, (spokes - spoke) % spokes), "mirrored", here);
        }
    }
}

/* ---- the picture --------------------------------------------------------- */

typedef struct seen {
    size_t paths;
    bool svg;
} seen;

static void on_start(void *context, const XML_Char *name, const XML_Char **attributes)
{
    (void)attributes;
    seen *s = context;
    s->svg = s->svg || strcmp(name, "svg") == 0;
    s->paths += strcmp(name, "path") == 0;
}

static void check_picture(const char *path, size_t patches)
{
    static char text[1 << 16];
    seen s = {0};
    FILE *file = fopen(path, "rb");
    XML_Parser parser = XML_ParserCreate(NULL);
    bool good = file != NULL && parser != NULL;
    if (good) {
        XML_SetUserData(parser, &s);
        XML_SetStartElementHandler(parser, on_start);
    }
    for (bool last = false; good && !last;) {
        size_t length = fread(text, 1, sizeof text, file);
        last = length < sizeof text;
        good = XML_Parse(parser, text, (int)length, last) == XML_STATUS_OK;
    }
    check(good && s.svg, "not an SVG that parses, line",
          parser != NULL ? (double)XML_GetCurrentLineNumber(parser) : 0.0);
    check(s.paths >= patches, "paths of the picture", (double)s.paths);
    if (parser != NULL) {
        XML_ParserFree(parser);
    }
    if (file != NULL) {
        fclose(file);
    }
}

int main(int argc, char **argv)
{
    if (argc != 5) {
        return 2;
    }
    json_t *beams = load(argv[1]), *whole = load(argv[2]), *tilt = load(argv[3]);
    if (beams != NULL && whole != NULL && tilt != NULL) {
        size_t patches = check_beams(beams, whole);
        check_steps(whole);
        check_tilt(tilt, whole);
        check_picture(argv[4], patches);
        printf("%zu patches, %d faults\n", patches, faults);
    }
    json_decref(beams);
    json_decref(whole);
    json_decref(tilt);
    return faults == 0 ? 0 : 1;
}
