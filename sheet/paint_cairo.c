#include "sheet/paint_cairo.h"

#include <assert.h>
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>
#include <pango/pangocairo.h>
#include <string.h>

/* Cairo's images go up to 32,767 pixels a side. */
#define MOST_PIXELS 32000.0

/* A date for a file that is the same whenever it is made. */
#define FIXED_DATE "2000-01-01T00:00:00Z"

struct lw_painter {
    lw_memory memory;
    cairo_surface_t *blank; /* for measuring */
    cairo_t *pen;
    PangoLayout *layout;
    PangoFontDescription *fonts[LW_FACE_COUNT];
};

#if defined(__SANITIZE_ADDRESS__)
#define WITH_LEAK_CHECK 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define WITH_LEAK_CHECK 1
#endif
#endif

#ifdef WITH_LEAK_CHECK
/* Fontconfig keeps its own tables to the end of the process: those leaks are not ours to mend. */
const char *__lsan_default_suppressions(void);
const char *__lsan_default_options(void);
const char *__lsan_default_options(void)
{
    return "print_suppressions=0";
}

const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig\nleak:libpango\n";
}
#endif

static PangoFontDescription *new_font(lw_face face)
{
    PangoFontDescription *font = pango_font_description_new();
    pango_font_description_set_family_static(font, "DejaVu Sans");
    if (face == LW_FACE_BOLD) {
        pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
    } else if (face == LW_FACE_SLANTED) {
        pango_font_description_set_style(font, PANGO_STYLE_OBLIQUE);
    }
    return font;
}

/* A layout in points, unhinted, whose resolution makes one unit of size one point. */
static PangoLayout *new_layout(cairo_t *pen)
{
    PangoContext *context = pango_cairo_create_context(pen);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options);
    pango_cairo_context_set_resolution(context, 72.0);
    pango_context_set_round_glyph_positions(context, FALSE);
    cairo_font_options_destroy(options);
    PangoLayout *layout = pango_layout_new(context);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    g_object_unref(context);
    return layout;
}

lw_status lw_painter_new(const lw_memory *memory, lw_painter **out)
{
    void *block = NULL;
    lw_status status = lw_memory_new(memory, 1, sizeof(lw_painter), &block);
    if (status != LW_OK) {
        return status;
    }
    lw_painter *painter = block;
    painter->memory = *memory;
    painter->blank = cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, NULL);
    painter->pen = cairo_create(painter->blank);
    painter->layout = new_layout(painter->pen);
    for (int face = 0; face < LW_FACE_COUNT; face++) {
        painter->fonts[face] = new_font((lw_face)face);
    }
    if (cairo_status(painter->pen) != CAIRO_STATUS_SUCCESS) {
        lw_painter_destroy(painter);
        return LW_NO_MEMORY;
    }
    *out = painter;
    return LW_OK;
}

void lw_painter_destroy(lw_painter *painter)
{
    if (painter == NULL) {
        return;
    }
    for (int face = 0; face < LW_FACE_COUNT; face++) {
        pango_font_description_free(painter->fonts[face]);
    }
    g_object_unref(painter->layout);
    cairo_destroy(painter->pen);
    cairo_surface_destroy(painter->blank);
    lw_memory memory = painter->memory;
    lw_memory_free(&memory, painter, 1, sizeof *painter);
}

/* ---- text ---- */

static void set_text(lw_painter *painter, const lw_type *type, const char *text, size_t length)
{
    PangoFontDescription *font = painter->fonts[type->face];
    pango_font_description_set_size(font, (gint)lround(type->size * PANGO_SCALE));
    pango_layout_set_font_description(painter->layout, font);
    pango_layout_set_text(painter->layout, text, (int)length);
}

static lw_text_size measure(void *context, const lw_type *type, const char *text, size_t length)
{
    lw_painter *painter = context;
    set_text(painter, type, text, length);
    PangoRectangle box;
    pango_layout_get_extents(painter->layout, NULL, &box);
    double baseline = (double)pango_layout_get_baseline(painter->layout) / PANGO_SCALE;
    return (lw_text_size){.width = (double)box.width / PANGO_SCALE,
                          .ascent = baseline,
                          .descent = (double)box.height / PANGO_SCALE - baseline};
}

lw_metrics lw_painter_metrics(lw_painter *painter)
{
    return (lw_metrics){.measure = measure, .context = painter};
}

static void use_ink(cairo_t *pen, lw_ink ink)
{
    cairo_set_source_rgb(pen, ink.red, ink.green, ink.blue);
}

static void paint_text(lw_painter *painter, cairo_t *pen, const lw_display_list *list,
                       const lw_mark *mark)
{
    const char *text = list->text + mark->first;
    lw_text_size size = measure(painter, &mark->type, text, mark->count);
    double share = mark->align == LW_ALIGN_LEFT ? 0.0 : mark->align == LW_ALIGN_MIDDLE ? 0.5 : 1.0;
    use_ink(pen, mark->type.ink);
    cairo_move_to(pen, mark->at.x - share * size.width, mark->at.y);
    pango_cairo_show_layout_line(pen, pango_layout_get_line_readonly(painter->layout, 0));
}

/* ---- paths ---- */

static void trace(cairo_t *pen, const lw_path_spot *spots, size_t count)
{
    cairo_new_path(pen);
    for (size_t i = 0; i < count; i++) {
        const lw_path_spot *s = &spots[i];
        switch (s->op) {
        case LW_PATH_MOVE:
            cairo_move_to(pen, s->at.x, s->at.y);
            break;
        case LW_PATH_LINE:
            cairo_line_to(pen, s->at.x, s->at.y);
            break;
        case LW_PATH_CURVE:
            assert(i + 2 < count);
            cairo_curve_to(pen, s->at.x, s->at.y, s[1].at.x, s[1].at.y, s[2].at.x, s[2].at.y);
            i += 2;
            break;
        default:
            cairo_close_path(pen);
            break;
        }
    }
}

static void paint_path(cairo_t *pen, const lw_display_list *list, const lw_mark *mark)
{
    const lw_style *style = &mark->style;
    trace(pen, list->spots + mark->first, mark->count);
    if (style->filled) {
        use_ink(pen, style->fill);
        cairo_fill_preserve(pen);
    }
    if (style->line_width > 0.0) {
        use_ink(pen, style->line);
        cairo_set_line_width(pen, style->line_width);
        cairo_set_dash(pen, &style->dash, style->dash > 0.0 ? 1 : 0, 0.0);
        cairo_stroke_preserve(pen);
    }
    cairo_new_path(pen);
}

static void paint_page(lw_painter *painter, cairo_t *pen, const lw_display_list *list, int page)
{
    cairo_set_line_cap(pen, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    for (size_t i = 0; i < list->mark_count; i++) {
        const lw_mark *mark = &list->marks[i];
        if (mark->page == page && mark->kind == LW_MARK_PATH) {
            paint_path(pen, list, mark);
        } else if (mark->page == page) {
            paint_text(painter, pen, list, mark);
        }
    }
}

/* ---- files ---- */

/* The file's bytes, gathered whole before they are handed on. */
typedef struct gathered {
    lw_memory memory;
    void *bytes;
    size_t count, room;
} gathered;

static cairo_status_t gather(void *closure, const unsigned char *bytes, unsigned int length)
{
    gathered *to = closure;
    if (lw_memory_reserve(&to->memory, &to->bytes, &to->room, to->count + length, 1) != LW_OK) {
        return CAIRO_STATUS_WRITE_ERROR;
    }
    memcpy((char *)to->bytes + to->count, bytes, length);
    to->count += length;
    return CAIRO_STATUS_SUCCESS;
}

/* The size of what is painted: one page, or all below one another. */
static lw_page whole_size(const lw_display_list *list, int first, int past)
{
    lw_page size = {0.0, 0.0};
    for (int i = first; i < past; i++) {
        size.width = fmax(size.width, list->pages[i].width);
        size.height += list->pages[i].height;
    }
    return size;
}

static void paint_stacked(lw_painter *painter, cairo_t *pen, const lw_display_list *list, int first,
                          int past)
{
    for (int i = first; i < past; i++) {
        cairo_save(pen);
        paint_page(painter, pen, list, i);
        cairo_restore(pen);
        cairo_translate(pen, 0.0, list->pages[i].height);
    }
}

static cairo_status_t finish(cairo_t *pen, cairo_surface_t *surface)
{
    cairo_status_t status = cairo_status(pen);
    cairo_destroy(pen);
    cairo_surface_finish(surface);
    if (status == CAIRO_STATUS_SUCCESS) {
        status = cairo_surface_status(surface);
    }
    cairo_surface_destroy(surface);
    return status;
}

static cairo_status_t paint_pdf(lw_painter *painter, const lw_display_list *list, int first,
                                int past, const char *title, gathered *to)
{
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
        gather, to, list->pages[first].width, list->pages[first].height);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, FIXED_DATE);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Lapwing");
    if (title != NULL && title[0] != '\0') {
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
    }
    cairo_t *pen = cairo_create(surface);
    for (int i = first; i < past; i++) {
        cairo_pdf_surface_set_size(surface, list->pages[i].width, list->pages[i].height);
        paint_page(painter, pen, list, i);
        cairo_show_page(pen);
    }
    return finish(pen, surface);
}

static void white_ground(cairo_t *pen)
{
    cairo_set_source_rgb(pen, 1.0, 1.0, 1.0);
    cairo_paint(pen);
}

/* Cairo numbers its surfaces through a process's life and writes that number into the file. */
static void settle_names(gathered *file)
{
    static const char name[] = "id=\"surface";
    char *bytes = file->bytes;
    size_t to = 0;
    for (size_t i = 0; i < file->count;) {
        size_t left = file->count - i;
        if (left > sizeof name && memcmp(bytes + i, name, sizeof name - 1) == 0) {
            memmove(bytes + to, bytes + i, sizeof name - 1);
            to += sizeof name - 1;
            i += sizeof name - 1;
            while (i < file->count && bytes[i] >= '0' && bytes[i] <= '9') {
                i++;
            }
            continue;
        }
        bytes[to++] = bytes[i++];
    }
    file->count = to;
}

static cairo_status_t paint_svg(lw_painter *painter, const lw_display_list *list, int first,
                                int past, gathered *to)
{
    lw_page size = whole_size(list, first, past);
    cairo_surface_t *surface =
        cairo_svg_surface_create_for_stream(gather, to, size.width, size.height);
    cairo_svg_surface_set_document_unit(surface, CAIRO_SVG_UNIT_PT);
    cairo_t *pen = cairo_create(surface);
    white_ground(pen);
    paint_stacked(painter, pen, list, first, past);
    cairo_status_t status = finish(pen, surface);
    if (status == CAIRO_STATUS_SUCCESS && to->bytes != NULL) {
        settle_names(to);
    }
    return status;
}

static cairo_status_t paint_png(lw_painter *painter, const lw_display_list *list, int first,
                                int past, gathered *to)
{
    lw_page size = whole_size(list, first, past);
    double scale = LW_PAINT_PNG_DPI / 72.0;
    cairo_surface_t *surface = cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, (int)lround(size.width * scale), (int)lround(size.height * scale));
    cairo_t *pen = cairo_create(surface);
    cairo_scale(pen, scale, scale);
    white_ground(pen);
    paint_stacked(painter, pen, list, first, past);
    cairo_status_t status = cairo_status(pen);
    cairo_destroy(pen);
    if (status == CAIRO_STATUS_SUCCESS) {
        status = cairo_surface_write_to_png_stream(surface, gather, to);
    }
    cairo_surface_destroy(surface);
    return status;
}

lw_status lw_paint(lw_painter *painter, const lw_display_list *list, int page,
                   lw_paint_format format, const char *title, lw_paint_sink *sink, void *context)
{
    assert(list->status == LW_OK && list->page_count > 0);
    assert(page >= -1 && page < (int)list->page_count);
    int first = page < 0 ? 0 : page;
    int past = page < 0 ? (int)list->page_count : page + 1;
    lw_page size = whole_size(list, first, past);
    if (format == LW_PAINT_PNG && size.height * LW_PAINT_PNG_DPI / 72.0 > MOST_PIXELS) {
        return LW_TOO_LARGE;
    }
    gathered file = {.memory = painter->memory};
    cairo_status_t status = CAIRO_STATUS_SUCCESS;
    if (format == LW_PAINT_PDF) {
        status = paint_pdf(painter, list, first, past, title, &file);
    } else if (format == LW_PAINT_SVG) {
        status = paint_svg(painter, list, first, past, &file);
    } else {
        status = paint_png(painter, list, first, past, &file);
    }
    bool taken = status == CAIRO_STATUS_SUCCESS && sink(context, file.bytes, file.count);
    lw_memory_free(&file.memory, file.bytes, file.room, 1);
    return status != CAIRO_STATUS_SUCCESS ? LW_NO_MEMORY : taken ? LW_OK : LW_BAD_INPUT;
}
