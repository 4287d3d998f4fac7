#include "cut/write_parts.h"

#include "cut/lex.h"

static void relation(lw_out *out, const lw_facet_ref *facet)
{
    static const char *const words[] = {
        [LW_RELATION_ONLY] = "",      [LW_RELATION_OWN] = "own ",
        [LW_RELATION_LEFT] = "left ", [LW_RELATION_RIGHT] = "right ",
        [LW_RELATION_TOOTH] = "",     [LW_RELATION_OPPOSITE] = "opposite ",
        [LW_RELATION_NEXT] = "next "};
    if (facet->count > 1) {
        lw_out_whole(out, facet->count);
        lw_out_text(out, lw_ordinal_ending(facet->count));
        lw_out_text(out, " ");
    }
    lw_out_text(out, words[facet->relation]);
}

void lw_out_facet(lw_out *out, const lw_facet_ref *facet)
{
    relation(out, facet);
    lw_out_text(out, facet->side == LW_SIDE_PAVILION ? "pavilion "
                     : facet->side == LW_SIDE_CROWN  ? "crown "
                                                     : "");
    lw_out_text(out, facet->name);
    if (facet->relation == LW_RELATION_TOOTH) {
        lw_out_text(out, "@");
        lw_out_number(out, facet->tooth);
    }
}

static void facets(lw_out *out, const lw_facet_ref *list, int count)
{
    for (int i = 0; i < count; i++) {
        lw_out_text(out, i > 0 ? ", " : "");
        lw_out_facet(out, &list[i]);
    }
}

/* A share within a share stands in brackets: for the ear, the grammar could do without. */
static void end_of_share(lw_out *out, const lw_point *point)
{
    bool brackets = point->kind == LW_POINT_SHARE;
    lw_out_text(out, brackets ? "(" : "");
    lw_out_point(out, point);
    lw_out_text(out, brackets ? ")" : "");
}

void lw_out_point(lw_out *out, const lw_point *point)
{
    switch (point->kind) {
    case LW_POINT_MEET:
        lw_out_text(out, "meet ");
        facets(out, point->facets, point->facet_count);
        break;
    case LW_POINT_LINE:
        lw_out_text(out, "line ");
        facets(out, point->facets, point->facet_count);
        break;
    case LW_POINT_APEX:
        lw_out_text(out, "apex");
        break;
    case LW_POINT_SHARE:
        lw_out_text(out, "share ");
        lw_out_expr(out, point->share);
        lw_out_text(out, " from ");
        end_of_share(out, point->from);
        lw_out_text(out, " towards ");
        end_of_share(out, point->towards);
        break;
    }
}

static void edge(lw_out *out, const lw_edge *edge)
{
    lw_out_text(out, edge->second == NULL ? "with " : "between ");
    lw_out_facet(out, edge->first);
    if (edge->second != NULL) {
        lw_out_text(out, ", ");
        lw_out_facet(out, edge->second);
    }
}

/* A word, and the value that may be left out behind it. */
static void word_value(lw_out *out, const char *word, const lw_expr *value)
{
    lw_out_text(out, word);
    if (value != NULL) {
        lw_out_text(out, " ");
        lw_out_expr(out, value);
    }
}

static void distances(lw_out *out, const lw_rule *rule)
{
    word_value(out, "distance", rule->value);
    for (int i = 0; i < rule->value_count; i++) {
        word_value(out, i > 0 ? "," : "", rule->values[i]);
    }
}

/* Rules that name facets. */
static void facet_rule(lw_out *out, const lw_rule *rule)
{
    switch (rule->kind) {
    case LW_RULE_LEVEL:
        lw_out_text(out, "level on ");
        break;
    case LW_RULE_TABLE:
        word_value(out, "table", rule->value);
        lw_out_text(out, " across ");
        break;
    case LW_RULE_REACH:
        word_value(out, "reach", rule->value);
        lw_out_text(out, " along ");
        break;
    case LW_RULE_EDGE:
        lw_out_text(out, "edge with ");
        break;
    case LW_RULE_MATCH:
        lw_out_text(out, "match ");
        break;
    default:
        lw_out_point(out, rule->point);
        lw_out_text(out, " on ");
        break;
    }
    facets(out, rule->facets, rule->facet_count);
    if (rule->kind == LW_RULE_EDGE) {
        word_value(out, "", rule->value);
    }
    if (rule->kind == LW_RULE_LEVEL && rule->point != NULL) {
        lw_out_text(out, " by ");
        lw_out_point(out, rule->point);
    }
}

void lw_out_rule(lw_out *out, const lw_rule *rule)
{
    static const char *const words[] = {
        [LW_RULE_SIZE] = "size",     [LW_RULE_POINT] = "point", [LW_RULE_GIRDLE] = "girdle",
        [LW_RULE_HEIGHT] = "height", [LW_RULE_WIDTH] = "width", [LW_RULE_CULET] = "culet"};
    switch (rule->kind) {
    case LW_RULE_POINT:
        lw_out_text(out, rule->temporary ? "temporary " : "");
        word_value(out, "point", rule->value);
        break;
    case LW_RULE_SIZE:
    case LW_RULE_GIRDLE:
    case LW_RULE_HEIGHT:
    case LW_RULE_WIDTH:
    case LW_RULE_CULET:
        word_value(out, words[rule->kind], rule->value);
        break;
    case LW_RULE_THROUGH:
        lw_out_point(out, rule->point);
        break;
    case LW_RULE_DISTANCE:
        distances(out, rule);
        break;
    case LW_RULE_EQUAL:
        lw_out_text(out, "equal ");
        edge(out, &rule->edges[0]);
        lw_out_text(out, " as ");
        edge(out, &rule->edges[1]);
        break;
    default:
        facet_rule(out, rule);
        break;
    }
}

size_t lw_facet_ref_write(const lw_facet_ref *facet, char *text, size_t capacity)
{
    lw_out out = lw_out_make(text, capacity);
    lw_out_facet(&out, facet);
    return lw_out_end(&out);
}

size_t lw_point_write(const lw_point *point, char *text, size_t capacity)
{
    lw_out out = lw_out_make(text, capacity);
    lw_out_point(&out, point);
    return lw_out_end(&out);
}
