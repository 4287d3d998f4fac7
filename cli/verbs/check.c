/* lapwing check: closed? every facet there? every meet holding? to be cut in this order? */
#include "json.h"
#include "stone.h"
#include "text.h"

#include "cut/check.h"
#include "matter/refraction.h"

#include <stdio.h>

static const char *const kinds[] = {
    [LW_FINDING_NOT_CLOSED] = "not_closed",
    [LW_FINDING_NO_AREA] = "no_area",
    [LW_FINDING_MEET_MISSED] = "meet_missed",
    [LW_FINDING_NEAR_MISS] = "near_miss",
    [LW_FINDING_BLIND] = "blind",
    [LW_FINDING_DOPPED_SIDE] = "dopped_side",
    [LW_FINDING_TEMPORARY_STAYS] = "temporary_stays",
    [LW_FINDING_POINT_STAYS] = "point_stays",
    [LW_FINDING_NO_ADAPTER] = "no_adapter",
    [LW_FINDING_BELOW_CRITICAL] = "below_critical",
};

/* Which question a finding answers with no. */
typedef enum question { CLOSED, FACETS, MEETS, ORDER, NOTES, QUESTION_COUNT } question;

static question question_of(const lw_finding *finding)
{
    switch (finding->kind) {
    case LW_FINDING_NOT_CLOSED:
        return CLOSED;
    case LW_FINDING_NO_AREA:
        return FACETS;
    case LW_FINDING_MEET_MISSED:
        return MEETS;
    case LW_FINDING_NEAR_MISS:
    case LW_FINDING_BELOW_CRITICAL:
        return NOTES;
    default:
        return finding->fault ? ORDER : NOTES;
    }
}

static bool passes(const lw_check *check)
{
    return check->closed && check->every_facet && check->every_meet && check->cuttable;
}

/* ---- JSON ---- */

static json_t *finding_json(const cli_stone *s, const lw_finding *finding)
{
    char text[600];
    lw_finding_write(&s->cut, &s->stone, finding, text, sizeof text);
    const lw_step *step = finding->step < 0 ? NULL : &s->cut.steps[finding->step];
    json_t *object = json_pack("{s:s, s:b, s:s}", "kind", kinds[finding->kind], "fault",
                               (int)finding->fault, "text", text);
    json_object_set_new(object, "step",
                        step == NULL ? json_null() : json_integer(finding->step + 1));
    json_object_set_new(object, "line",
                        step == NULL ? json_null() : json_integer(step->place.line));
    json_object_set_new(object, "tooth",
                        finding->facet < 0 ? json_null()
                                           : json_real(s->stone.facets[finding->facet].tooth));
    return object;
}

static json_t *steps_json(const cli_stone *s, const lw_check *check)
{
    json_t *list = json_array();
    for (int i = 0; i < check->step_count; i++) {
        const lw_step *step = &s->cut.steps[i];
        if (step->kind == LW_STEP_FACETS) {
            json_array_append_new(list, json_pack("{s:i, s:s, s:i, s:s}", "step", i + 1, "name",
                                                  step->name, "line", step->place.line, "known",
                                                  lw_sight_text(check->sights[i])));
        }
    }
    return list;
}

static json_t *check_json(const cli_stone *s, const lw_check *check)
{
    json_t *findings = json_array();
    for (int i = 0; i < check->finding_count; i++) {
        json_array_append_new(findings, finding_json(s, &check->findings[i]));
    }
    json_t *object =
        json_pack("{s:s, s:b, s:b, s:b, s:b, s:b, s:i}", "cut", s->name, "passes",
                  (int)passes(check), "closed", (int)check->closed, "every_facet",
                  (int)check->every_facet, "every_meet", (int)check->every_meet, "cuttable",
                  (int)check->cuttable, "near_miss_count", check->near_miss_count);
    if (s->stone.unit_mm > 0.0) {
        json_object_set_new(object, "shortest_edge_um",
                            json_real(check->shortest_edge * s->stone.unit_mm * 1000.0));
    }
    json_object_set_new(object, "shortest_edge_widths",
                        json_real(check->shortest_edge / s->stone.measures.width));
    json_object_set_new(object, "steps", steps_json(s, check));
    json_object_set_new(object, "findings", findings);
    return object;
}

/* A cut that comes to no stone at all: the answer is no, and the problem is the evidence. */
static json_t *no_stone_json(const cli_stone *s, const lw_problem *problem, const char *text)
{
    bool closed = problem->status != LW_NOT_CLOSED && problem->status != LW_EMPTY;
    json_t *line = problem->line > 0 ? json_integer(problem->line) : json_null();
    return json_pack("{s:s, s:b, s:b, s:n, s:b, s:b, s:[{s:s, s:b, s:s, s:o}]}", "cut", s->name,
                     "passes", 0, "closed", (int)closed, "every_facet", "every_meet", 0, "cuttable",
                     0, "findings", "kind", "no_stone", "fault", 1, "text", text, "line", line);
}

/* ---- for people ---- */

static void print_question(const cli_stone *s, const lw_check *check, question q)
{
    static const char *const titles[] = {"Closed", "Every facet there", "Every meet holding",
                                         "To be cut in this order"};
    const bool answers[] = {check->closed, check->every_facet, check->every_meet, check->cuttable};
    char text[600];
    if (q == NOTES) {
        printf("Worth knowing\n");
    } else {
        printf("%s: %s\n", titles[q], answers[q] ? "yes" : "no");
    }
    for (int i = 0; i < check->finding_count; i++) {
        if (question_of(&check->findings[i]) == q) {
            lw_finding_write(&s->cut, &s->stone, &check->findings[i], text, sizeof text);
            printf("    %s\n", text);
        }
    }
}

static bool has_notes(const lw_check *check)
{
    for (int i = 0; i < check->finding_count; i++) {
        if (question_of(&check->findings[i]) == NOTES) {
            return true;
        }
    }
    return false;
}

static void print_check(const cli_stone *s, const lw_check *check)
{
    for (question q = CLOSED; q < NOTES; q++) {
        print_question(s, check, q);
    }
    printf("How each depth is known\n");
    for (int i = 0; i < check->step_count; i++) {
        if (s->cut.steps[i].kind == LW_STEP_FACETS) {
            printf("    %2d  %-16s%s\n", i + 1, s->cut.steps[i].name,
                   lw_sight_text(check->sights[i]));
        }
    }
    double edge = check->shortest_edge;
    printf("Shortest edge: %s %% of the width",
           CLI_FIXED(100.0 * edge / s->stone.measures.width, 3));
    if (s->stone.unit_mm > 0.0) {
        printf(", %s um at this size", CLI_FIXED(edge * s->stone.unit_mm * 1000.0, 1));
    }
    printf("; %d near miss%s\n", check->near_miss_count, check->near_miss_count == 1 ? "" : "es");
    if (has_notes(check)) {
        print_question(s, check, NOTES);
    }
}

/* ---- running ---- */

/* What a text can come to that is an answer rather than a mistake in what was typed. */
static bool is_answer(const lw_problem *problem)
{
    switch (problem->status) {
    case LW_NOT_CLOSED:
    case LW_EMPTY:
    case LW_NO_SOLUTION:
    case LW_MANY_SOLUTIONS:
        return true;
    case LW_NOT_FOUND:
        return problem->line > 0;
    default:
        return false;
    }
}

static cli_exit no_stone(const cli_args *args, const cli_stone *s, const lw_problem *problem)
{
    char text[4 * LW_PROBLEM_TEXT];
    if (!is_answer(problem)) {
        return cli_fail_problem(s->name, problem);
    }
    lw_problem_write(problem, text, sizeof text);
    if (args->json) {
        cli_exit printed = cli_json_print(no_stone_json(s, problem, text));
        return printed == CLI_DONE ? CLI_NO : printed;
    }
    printf("No stone comes of it.\n    %s:%s\n", s->name, text);
    return CLI_NO;
}

static cli_exit report(const cli_args *args, cli_stone *s)
{
    double index = 0.0;
    if (!cli_index(args, s->material, &index)) {
        return CLI_WRONG;
    }
    const lw_check_options options = {
        .near_miss = cli_number(args, "near-miss", 0.0) / 100.0,
        .critical_angle_deg = index > 0.0 ? lw_critical_angle_deg(index) : 0.0,
        .margin_deg = cli_number(args, "margin-deg", 0.0),
    };
    lw_check check = {0};
    if (lw_cut_check(&s->memory, &s->cut, &s->stone, &options, &check) != LW_OK) {
        return cli_fail("out of memory");
    }
    cli_exit result = passes(&check) ? CLI_DONE : CLI_NO;
    if (!args->json) {
        print_check(s, &check);
    } else if (cli_json_print(check_json(s, &check)) != CLI_DONE) {
        result = CLI_WRONG;
    }
    lw_check_destroy(&check);
    return result;
}

static cli_exit run(const cli_args *args)
{
    static cli_stone stone;
    lw_solve_options options = {0};
    lw_problem problem = {0};
    cli_exit result = CLI_WRONG;
    if (cli_stone_prepare(args, &stone, &options)) {
        bool solved =
            lw_cut_solve(&stone.memory, &stone.cut, &options, &stone.stone, &problem) == LW_OK;
        result = solved ? report(args, &stone) : no_stone(args, &stone, &problem);
    }
    cli_stone_destroy(&stone);
    return result;
}

static const cli_option options[] = {
    CLI_CUT_OPTIONS,
    CLI_INDEX_OPTION,
    {.name = "margin-deg",
     .kind = CLI_NUMBER,
     .value = "DEG",
     .unit = "deg",
     .lowest = 0,
     .highest = 20,
     .help = "call out angles less than this above the critical one"},
    {.name = "near-miss",
     .kind = CLI_NUMBER,
     .value = "PERCENT",
     .unit = "%",
     .lowest = 0.0001,
     .highest = 10,
     .help = "edges shorter than this share of the width are near misses; 0.2 % unless given"},
    CLI_OPTIONS_END,
};

static const char *const examples[] = {
    "lapwing check mine.cut --width-mm 8 --material quartz",
    "lapwing check mine.cut --near-miss 0.5 --json",
    NULL,
};

const cli_verb cli_verb_check = {
    .name = "check",
    .summary = "Whether a cut closes, its meets hold, and it can be cut in this order",
    .operands = "CUT",
    .operands_least = 1,
    .operands_most = 1,
    .details =
        "Answers four questions, each with its evidence: is the stone closed, is every facet "
        "there, does every meet hold, and can it be cut in this order. For the last the stone is "
        "cut step by step, and each depth is classed by how it is known at that moment: seen (the "
        "point is there), makes itself (a centre point forming), measured, matched (like its "
        "twin), or blind, which is a fault.\n\n"
        "With a material, angles below its critical angle are called out. Ends with status 1 when "
        "the answer to any of the four is no.",
    .options = options,
    .examples = examples,
    .run = run,
};
