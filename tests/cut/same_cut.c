#include "cut/same_cut.h"

#include <stddef.h>
#include <string.h>

static bool same_text(const char *a, const char *b)
{
    return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

static bool same_bits(double a, double b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

static bool same_expr(const lw_expr *a, const lw_expr *b)
{
    if (a == NULL || b == NULL) {
        return a == b;
    }
    return a->kind == b->kind && same_bits(a->value, b->value) && a->unit == b->unit &&
           same_text(a->name, b->name) && same_expr(a->left, b->left) &&
           same_expr(a->right, b->right);
}

static bool same_facets(const lw_facet_ref *a, const lw_facet_ref *b, int count)
{
    for (int i = 0; i < count; i++) {
        if (a[i].relation != b[i].relation || a[i].count != b[i].count || a[i].side != b[i].side ||
            !same_text(a[i].name, b[i].name) || !same_bits(a[i].tooth, b[i].tooth)) {
            return false;
        }
    }
    return true;
}

static bool same_facet(const lw_facet_ref *a, const lw_facet_ref *b)
{
    return a == NULL || b == NULL ? a == b : same_facets(a, b, 1);
}

static bool same_point(const lw_point *a, const lw_point *b)
{
    if (a == NULL || b == NULL) {
        return a == b;
    }
    return a->kind == b->kind && a->facet_count == b->facet_count &&
           same_facets(a->facets, b->facets, a->facet_count) && same_expr(a->share, b->share) &&
           same_point(a->from, b->from) && same_point(a->towards, b->towards);
}

static bool same_rule(const lw_rule *a, const lw_rule *b)
{
    if (a->kind != b->kind || a->value_count != b->value_count || a->temporary != b->temporary ||
        a->facet_count != b->facet_count || !same_expr(a->value, b->value) ||
        !same_point(a->point, b->point) || !same_facets(a->facets, b->facets, a->facet_count)) {
        return false;
    }
    for (int i = 0; i < a->value_count; i++) {
        if (!same_expr(a->values[i], b->values[i])) {
            return false;
        }
    }
    return same_facet(a->edges[0].first, b->edges[0].first) &&
           same_facet(a->edges[0].second, b->edges[0].second) &&
           same_facet(a->edges[1].first, b->edges[1].first) &&
           same_facet(a->edges[1].second, b->edges[1].second);
}

static bool same_step(const lw_step *a, const lw_step *b)
{
    bool same = a->kind == b->kind && a->side == b->side && a->off == b->off &&
                a->temporary == b->temporary && a->each == b->each && same_text(a->name, b->name) &&
                same_expr(a->angle, b->angle) && same_expr(a->angle_near, b->angle_near) &&
                a->tooth_free == b->tooth_free && a->tooth_count == b->tooth_count &&
                a->listed == b->listed && a->fold == b->fold && a->mirror == b->mirror &&
                a->own_symmetry == b->own_symmetry && a->rule_count == b->rule_count &&
                same_text(a->remark, b->remark);
    for (int i = 0; same && i < a->tooth_count; i++) {
        same = same_bits(a->teeth[i], b->teeth[i]);
    }
    for (int i = 0; same && i < a->rule_count; i++) {
        same = same_rule(&a->rules[i], &b->rules[i]);
    }
    return same;
}

static bool same_texts(const char *const *a, const char *const *b, int count)
{
    for (int i = 0; i < count; i++) {
        if (!same_text(a[i], b[i])) {
            return false;
        }
    }
    return true;
}

static bool same_settings(const lw_cut *a, const lw_cut *b)
{
    bool same = a->setting_count == b->setting_count;
    for (int i = 0; same && i < a->setting_count; i++) {
        const lw_setting *x = &a->settings[i];
        const lw_setting *y = &b->settings[i];
        same = x->is_let == y->is_let && same_text(x->name, y->name) &&
               same_expr(x->value, y->value) && same_expr(x->lowest, y->lowest) &&
               same_expr(x->highest, y->highest) && same_text(x->meaning, y->meaning);
    }
    return same;
}

static bool same_lines(const lw_cut *a, const lw_cut *b)
{
    bool same = a->line_count == b->line_count;
    for (int i = 0; same && i < a->line_count; i++) {
        const lw_line *x = &a->lines[i];
        const lw_line *y = &b->lines[i];
        same = x->kind == y->kind && x->index == y->index && x->side == y->side &&
               same_text(x->comment, y->comment);
    }
    return same;
}

const char *cut_difference(const lw_cut *a, const lw_cut *b)
{
    if (!same_text(a->title, b->title) || !same_text(a->maker, b->maker)) {
        return "title or maker";
    }
    if (a->note_count != b->note_count || !same_texts(a->notes, b->notes, a->note_count)) {
        return "notes";
    }
    if (a->suit_count != b->suit_count || !same_texts(a->suits, b->suits, a->suit_count)) {
        return "materials";
    }
    if (a->wheel != b->wheel || a->fold != b->fold || a->mirror != b->mirror ||
        a->left_handed != b->left_handed) {
        return "wheel, fold or hand";
    }
    if (!same_settings(a, b)) {
        return "settings";
    }
    if (a->step_count != b->step_count) {
        return "number of steps";
    }
    for (int i = 0; i < a->step_count; i++) {
        if (!same_step(&a->steps[i], &b->steps[i])) {
            return "a step";
        }
    }
    return same_lines(a, b) ? NULL : "lines or comments";
}
