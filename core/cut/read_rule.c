/* How deep: one rule behind "to" or "and". */
#include "cut/read_parts.h"

#include <stddef.h>

typedef lw_status (*read_body)(lw_reader *r, lw_rule *rule);

static lw_status value(lw_reader *r, lw_rule *rule, lw_want want)
{
    lw_status status = lw_read_expr(r, &rule->value);
    return status == LW_OK ? lw_read_check_value(r, rule->value, want, NULL) : status;
}

static lw_status one_facet(lw_reader *r, lw_rule *rule)
{
    rule->facet_count = 1;
    return lw_read_one_facet(r, &rule->facets);
}

static lw_status body_size(lw_reader *r, lw_rule *rule)
{
    return lw_read_expr_ahead(r) ? value(r, rule, LW_WANT_LENGTH) : LW_OK;
}

static lw_status body_level(lw_reader *r, lw_rule *rule)
{
    lw_status status = lw_read_want(r, "on", "'on' and a facet");
    if (status == LW_OK) {
        status = one_facet(r, rule);
    }
    return status == LW_OK && lw_read_take(r, "by") ? lw_read_point(r, &rule->point) : status;
}

static lw_status body_girdle(lw_reader *r, lw_rule *rule)
{
    return value(r, rule, LW_WANT_SMALL);
}

static lw_status body_length(lw_reader *r, lw_rule *rule)
{
    return value(r, rule, LW_WANT_LENGTH);
}

static lw_status body_table(lw_reader *r, lw_rule *rule)
{
    lw_status status = value(r, rule, LW_WANT_RATIO);
    if (status == LW_OK) {
        status = lw_read_want(r, "across", "'across' and a facet");
    }
    return status == LW_OK ? one_facet(r, rule) : status;
}

static lw_status body_reach(lw_reader *r, lw_rule *rule)
{
    lw_status status = value(r, rule, LW_WANT_RADIUS);
    if (status == LW_OK) {
        status = lw_read_want(r, "along", "'along' and two facets");
    }
    return status == LW_OK ? lw_read_facets(r, 2, &rule->facets, &rule->facet_count) : status;
}

static lw_status body_edge(lw_reader *r, lw_rule *rule)
{
    lw_status status = lw_read_want(r, "with", "'with' and a facet");
    if (status == LW_OK) {
        status = one_facet(r, rule);
    }
    return status == LW_OK ? value(r, rule, LW_WANT_LENGTH) : status;
}

static lw_status take_edge(lw_reader *r, lw_edge *edge)
{
    edge->place = lw_read_place(r);
    if (lw_read_take(r, "with")) {
        return lw_read_one_facet(r, &edge->first);
    }
    lw_status status = lw_read_want(r, "between", "an edge: with a facet, or between two facets");
    const lw_facet_ref *pair = NULL;
    int count = 0;
    if (status == LW_OK) {
        status = lw_read_facets(r, 2, &pair, &count);
    }
    if (status == LW_OK) {
        edge->first = &pair[0];
        edge->second = &pair[1];
    }
    return status;
}

static lw_status body_equal(lw_reader *r, lw_rule *rule)
{
    lw_status status = take_edge(r, &rule->edges[0]);
    if (status == LW_OK) {
        status = lw_read_want(r, "as", "'as' and another edge");
    }
    return status == LW_OK ? take_edge(r, &rule->edges[1]) : status;
}

static lw_status body_match(lw_reader *r, lw_rule *rule)
{
    return one_facet(r, rule);
}

static lw_status body_distance(lw_reader *r, lw_rule *rule)
{
    const void *kept = NULL;
    lw_status status = LW_OK;
    r->values_list.count = 0;
    do {
        status = value(r, rule, LW_WANT_LENGTH);
        if (status == LW_OK) {
            status = lw_read_add(r, &r->values_list, &rule->value, sizeof rule->value);
        }
    } while (status == LW_OK && lw_read_take_sign(r, ','));
    if (status != LW_OK || r->values_list.count == 1) {
        return status;
    }
    status = lw_read_keep(r, &r->values_list, sizeof rule->value, &kept);
    rule->value = NULL;
    rule->values = kept;
    rule->value_count = r->values_list.count;
    return status;
}

static const struct {
    const char *word;
    lw_rule_kind kind;
    read_body body;
} rules[] = {{"size", LW_RULE_SIZE, body_size},
             {"point", LW_RULE_POINT, body_size},
             {"level", LW_RULE_LEVEL, body_level},
             {"girdle", LW_RULE_GIRDLE, body_girdle},
             {"height", LW_RULE_HEIGHT, body_length},
             {"table", LW_RULE_TABLE, body_table},
             {"reach", LW_RULE_REACH, body_reach},
             {"edge", LW_RULE_EDGE, body_edge},
             {"width", LW_RULE_WIDTH, body_length},
             {"equal", LW_RULE_EQUAL, body_equal},
             {"culet", LW_RULE_CULET, body_girdle},
             {"match", LW_RULE_MATCH, body_match},
             {"distance", LW_RULE_DISTANCE, body_distance}};
enum { RULE_COUNT = sizeof rules / sizeof rules[0] };

static lw_status unknown_rule(lw_reader *r)
{
    const char *words[RULE_COUNT + 4] = {"meet", "line", "apex", "share"};
    char hint[LW_PROBLEM_TEXT];
    for (int i = 0; i < RULE_COUNT; i++) {
        words[i + 4] = rules[i].word;
    }
    lw_nearest_hint(lw_read_token(r), words, RULE_COUNT + 4, hint);
    return lw_read_fail(r, lw_read_token(r),
                        "how deep: size, point, meet, line, apex, share, level, girdle, height, "
                        "table, reach, edge, width, equal, culet, match or distance",
                        hint);
}

static lw_status through_point(lw_reader *r, lw_rule *rule)
{
    rule->kind = LW_RULE_THROUGH;
    lw_status status = lw_read_point(r, &rule->point);
    const lw_token *token = lw_read_token(r);
    if (status != LW_OK || !lw_token_is(token, "on")) {
        return status;
    }
    if (rule->point->kind != LW_POINT_SHARE) {
        return lw_read_fail(r, token, "'and', a remark in quotes or the end of the line",
                            "only a share is taken on a facet");
    }
    r->at++;
    rule->kind = LW_RULE_SHARE_ON;
    return one_facet(r, rule);
}

lw_status lw_read_rule(lw_reader *r, lw_rule *out)
{
    lw_rule rule = {.place = lw_read_place(r)};
    lw_status status = LW_OK;
    rule.temporary = lw_read_take(r, "temporary");
    if (rule.temporary && !lw_token_is(lw_read_token(r), "point")) {
        return lw_read_fail(r, lw_read_token(r), "'point' behind 'temporary'",
                            "a temporary step has the word at the start of its line");
    }
    if (lw_read_point_ahead(r)) {
        status = through_point(r, &rule);
    } else {
        int i = 0;
        while (i < RULE_COUNT && !lw_read_take(r, rules[i].word)) {
            i++;
        }
        if (i == RULE_COUNT) {
            return unknown_rule(r);
        }
        rule.kind = rules[i].kind;
        status = rules[i].body(r, &rule);
    }
    if (status == LW_OK) {
        *out = rule;
    }
    return status;
}
