/* A cut that can be changed, and the changes that every adaptation needs. */
#include "cut/adapt_parts.h"

#include "cut/read.h"
#include "cut/write.h"

#include <assert.h>
#include <string.h>

void lw_edit_destroy(lw_edit *edit)
{
    lw_cut_destroy(&edit->cut);
    *edit = (lw_edit){0};
}

void *lw_edit_new(lw_edit *edit, size_t count, size_t item_size)
{
    void *block = lw_arena_new(&edit->cut.arena, count, item_size);
    edit->out_of_memory = edit->out_of_memory || block == NULL;
    return block;
}

/* ---- what is named where ---- */

bool lw_expr_names(const lw_expr *expr, const char *name)
{
    if (expr == NULL) {
        return false;
    }
    bool here = expr->kind == LW_EXPR_NAME && strcmp(expr->name, name) == 0;
    return here || lw_expr_names(expr->left, name) || lw_expr_names(expr->right, name);
}

static bool point_names(const lw_point *point, const char *name)
{
    return point != NULL && (lw_expr_names(point->share, name) || point_names(point->from, name) ||
                             point_names(point->towards, name));
}

static bool rule_names(const lw_rule *rule, const char *name)
{
    bool named = lw_expr_names(rule->value, name) || point_names(rule->point, name);
    for (int i = 0; i < rule->value_count; i++) {
        named = named || lw_expr_names(rule->values[i], name);
    }
    return named;
}

static bool is_named(const lw_cut *cut, const char *name)
{
    bool named = false;
    for (int i = 0; i < cut->setting_count; i++) {
        const lw_setting *s = &cut->settings[i];
        named = named || lw_expr_names(s->value, name) || lw_expr_names(s->lowest, name) ||
                lw_expr_names(s->highest, name);
    }
    for (int i = 0; i < cut->step_count; i++) {
        const lw_step *step = &cut->steps[i];
        named = named || lw_expr_names(step->angle, name) || lw_expr_names(step->angle_near, name);
        for (int r = 0; r < step->rule_count; r++) {
            named = named || rule_names(&step->rules[r], name);
        }
    }
    return named;
}

/* ---- beginning ---- */

/* A copy with a life of its own: through its text, so that nothing can be forgotten. */
static lw_status copy_cut(const lw_memory *memory, const lw_cut *cut, lw_cut *out,
                          lw_problem *problem)
{
    size_t length = lw_cut_write(cut, NULL, 0);
    void *text = NULL;
    lw_status status = lw_memory_new(memory, length + 1, 1, &text);
    if (status != LW_OK) {
        return status;
    }
    (void)lw_cut_write(cut, text, length + 1);
    status = lw_cut_read(memory, text, length, out, problem);
    lw_memory_free(memory, text, length + 1, 1);
    return status;
}

static void *own_array(lw_edit *edit, const void *items, int count, size_t item_size)
{
    void *copy = lw_edit_new(edit, (size_t)count, item_size);
    if (copy != NULL && count > 0) {
        memcpy(copy, items, (size_t)count * item_size);
    }
    return copy;
}

lw_status lw_edit_begin(const lw_memory *memory, const lw_cut *cut, lw_edit *out,
                        lw_problem *problem)
{
    lw_edit edit = {0};
    lw_status status = copy_cut(memory, cut, &edit.cut, problem);
    if (status != LW_OK) {
        return status;
    }
    lw_cut *c = &edit.cut;
    edit.settings = own_array(&edit, c->settings, c->setting_count, sizeof *edit.settings);
    edit.steps = own_array(&edit, c->steps, c->step_count, sizeof *edit.steps);
    edit.lines = own_array(&edit, c->lines, c->line_count, sizeof *edit.lines);
    if (edit.out_of_memory) {
        lw_edit_destroy(&edit);
        return LW_NO_MEMORY;
    }
    c->settings = edit.settings;
    c->steps = edit.steps;
    c->lines = edit.lines;
    for (int i = 0; i < c->setting_count; i++) {
        edit.used[i] = is_named(c, c->settings[i].name);
    }
    *out = edit;
    return LW_OK;
}

/* ---- expressions ---- */

const lw_expr *lw_edit_number(lw_edit *edit, double value, lw_unit unit)
{
    lw_expr *expr = lw_edit_new(edit, 1, sizeof *expr);
    if (expr == NULL) {
        return NULL;
    }
    *expr = (lw_expr){.kind = LW_EXPR_NUMBER, .value = value < 0.0 ? -value : value, .unit = unit};
    if (!(value < 0.0)) {
        return expr;
    }
    lw_expr *negative = lw_edit_new(edit, 1, sizeof *negative);
    if (negative != NULL) {
        *negative = (lw_expr){.kind = LW_EXPR_NEGATE, .left = expr};
    }
    return negative;
}

static bool is_figure(const lw_expr *expr)
{
    return expr->kind == LW_EXPR_NUMBER;
}

/* What may stand before "*" without brackets. */
static bool binds_well(const lw_expr *expr)
{
    return expr->kind == LW_EXPR_NAME || expr->kind == LW_EXPR_CALL ||
           expr->kind == LW_EXPR_GROUP || expr->kind == LW_EXPR_MULTIPLY ||
           expr->kind == LW_EXPR_DIVIDE || expr->kind == LW_EXPR_POWER;
}

static const lw_expr *node(lw_edit *edit, lw_expr_kind kind, const lw_expr *left,
                           const lw_expr *right)
{
    lw_expr *expr = lw_edit_new(edit, 1, sizeof *expr);
    if (expr != NULL) {
        *expr = (lw_expr){.kind = kind, .left = left, .right = right};
    }
    return expr;
}

const lw_expr *lw_edit_scaled(lw_edit *edit, const lw_expr *expr, double factor)
{
    assert(factor > 0.0);
    if (is_figure(expr)) {
        return lw_edit_number(edit, expr->value * factor, expr->unit);
    }
    if (expr->kind == LW_EXPR_MULTIPLY && is_figure(expr->right) &&
        expr->right->unit == LW_UNIT_NUMBER) {
        const lw_expr *both = lw_edit_number(edit, expr->right->value * factor, LW_UNIT_NUMBER);
        return node(edit, LW_EXPR_MULTIPLY, expr->left, both);
    }
    const lw_expr *left = binds_well(expr) ? expr : node(edit, LW_EXPR_GROUP, expr, NULL);
    return node(edit, LW_EXPR_MULTIPLY, left, lw_edit_number(edit, factor, LW_UNIT_NUMBER));
}

/* ---- lines ---- */

/* Makes room for one more line at a place and gives it, zeroed; NULL when memory is out. */
static lw_line *insert_line(lw_edit *edit, int at)
{
    int count = edit->cut.line_count;
    lw_line *lines = lw_edit_new(edit, (size_t)count + 1, sizeof *lines);
    if (lines == NULL) {
        return NULL;
    }
    memcpy(lines, edit->lines, (size_t)at * sizeof *lines);
    memcpy(lines + at + 1, edit->lines + at, (size_t)(count - at) * sizeof *lines);
    edit->lines = lines;
    edit->cut.lines = lines;
    edit->cut.line_count = count + 1;
    return &lines[at];
}

/* The place behind the last line of that kind; -1 when there is none. */
static int behind_last(const lw_edit *edit, lw_line_kind kind)
{
    int at = -1;
    for (int i = 0; i < edit->cut.line_count; i++) {
        at = edit->lines[i].kind == kind ? i + 1 : at;
    }
    return at;
}

void lw_edit_need_line(lw_edit *edit, lw_line_kind kind, lw_line_kind behind)
{
    if (behind_last(edit, kind) >= 0) {
        return;
    }
    int at = behind_last(edit, behind);
    at = at >= 0 ? at : behind_last(edit, LW_LINE_WHEEL);
    lw_line *line = insert_line(edit, at);
    if (line != NULL) {
        line->kind = kind;
    }
}

static int note_place(const lw_edit *edit)
{
    static const lw_line_kind before[] = {LW_LINE_NOTE, LW_LINE_MAKER, LW_LINE_TITLE};
    for (size_t i = 0; i < sizeof before / sizeof *before; i++) {
        int at = behind_last(edit, before[i]);
        if (at >= 0) {
            return at;
        }
    }
    return 0;
}

void lw_edit_note(lw_edit *edit, const char *text)
{
    size_t count = (size_t)edit->cut.note_count;
    const char **notes = lw_edit_new(edit, count + 1, sizeof *notes);
    const char *copy = lw_arena_text(&edit->cut.arena, text, strlen(text));
    lw_line *line = insert_line(edit, note_place(edit));
    if (notes == NULL || copy == NULL || line == NULL) {
        edit->out_of_memory = true;
        return;
    }
    if (count > 0) {
        memcpy(notes, edit->cut.notes, count * sizeof *notes);
    }
    notes[count] = copy;
    *line = (lw_line){.kind = LW_LINE_NOTE, .index = (int)count};
    edit->noted = true;
    edit->cut.notes = notes;
    edit->cut.note_count = (int)count + 1;
}

/* ---- steps ---- */

/* Writes one line a new step in place of each old step's line. */
static int spread_lines(const lw_edit *edit, const int *of, int count, lw_line *lines)
{
    int written = 0;
    for (int i = 0; i < edit->cut.line_count; i++) {
        const lw_line *line = &edit->lines[i];
        if (line->kind != LW_LINE_STEP) {
            lines[written++] = *line;
            continue;
        }
        const char *comment = line->comment;
        for (int k = 0; k < count; k++) {
            if (of[k] == line->index) {
                lines[written++] = (lw_line){.kind = LW_LINE_STEP, .index = k, .comment = comment};
                comment = NULL;
            }
        }
    }
    return written;
}

void lw_edit_replace_steps(lw_edit *edit, const lw_step *steps, const int *of, int count)
{
    lw_step *own = own_array(edit, steps, count, sizeof *own);
    size_t most = (size_t)edit->cut.line_count + (size_t)count;
    lw_line *lines = lw_edit_new(edit, most, sizeof *lines);
    if (own == NULL || lines == NULL) {
        return;
    }
    edit->cut.line_count = spread_lines(edit, of, count, lines);
    edit->lines = lines;
    edit->cut.lines = lines;
    edit->steps = own;
    edit->cut.steps = own;
    edit->cut.step_count = count;
}

/* ---- settings ---- */

static void drop_setting(lw_edit *edit, int at)
{
    int written = 0;
    for (int i = 0; i < edit->cut.line_count; i++) {
        lw_line line = edit->lines[i];
        if (line.kind == LW_LINE_SETTING && line.index == at) {
            if (line.comment == NULL) {
                continue;
            }
            line = (lw_line){.kind = LW_LINE_COMMENT, .comment = line.comment};
        } else if (line.kind == LW_LINE_SETTING && line.index > at) {
            line.index--;
        }
        edit->lines[written++] = line;
    }
    edit->cut.line_count = written;
    for (int i = at; i + 1 < edit->cut.setting_count; i++) {
        edit->settings[i] = edit->settings[i + 1];
        edit->used[i] = edit->used[i + 1];
    }
    edit->cut.setting_count--;
}

void lw_edit_drop_unused(lw_edit *edit)
{
    /* From the last to the first: a setting names earlier ones only. */
    for (int i = edit->cut.setting_count - 1; i >= 0; i--) {
        if (edit->used[i] && !is_named(&edit->cut, edit->settings[i].name)) {
            drop_setting(edit, i);
        }
    }
}
