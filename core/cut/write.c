#include "cut/write.h"

#include "cut/write_parts.h"

/* A header's first word, up to the column of what follows. */
static void head(lw_out *out, const char *word)
{
    enum { HEAD_COLUMN = 9 };
    size_t start = out->length;
    lw_out_text(out, word);
    lw_out_pad(out, start, HEAD_COLUMN);
}

static void quoted_head(lw_out *out, const char *word, const char *text)
{
    head(out, word);
    lw_out_quoted(out, text);
}

static void suits(lw_out *out, const lw_cut *cut)
{
    head(out, "suits");
    for (int i = 0; i < cut->suit_count; i++) {
        lw_out_text(out, i > 0 ? ", " : "");
        lw_out_text(out, cut->suits[i]);
    }
}

static void fold(lw_out *out, const lw_cut *cut)
{
    head(out, "fold");
    if (cut->fold > 1) {
        lw_out_whole(out, cut->fold);
        lw_out_text(out, cut->mirror ? " mirror" : "");
    } else {
        lw_out_text(out, cut->mirror ? "mirror" : "none");
    }
}

static void content(lw_out *out, const lw_cut *cut, const lw_layout *layout, const lw_line *line)
{
    switch (line->kind) {
    case LW_LINE_BLANK:
    case LW_LINE_COMMENT:
        break;
    case LW_LINE_TITLE:
        quoted_head(out, "title", cut->title);
        break;
    case LW_LINE_MAKER:
        quoted_head(out, "maker", cut->maker);
        break;
    case LW_LINE_NOTE:
        quoted_head(out, "note", cut->notes[line->index]);
        break;
    case LW_LINE_SUITS:
        suits(out, cut);
        break;
    case LW_LINE_WHEEL:
        head(out, "wheel");
        lw_out_whole(out, cut->wheel);
        break;
    case LW_LINE_FOLD:
        fold(out, cut);
        break;
    case LW_LINE_HAND:
        head(out, "hand");
        lw_out_text(out, cut->left_handed ? "left" : "right");
        break;
    case LW_LINE_SETTING:
        lw_out_setting(out, layout, &cut->settings[line->index]);
        break;
    case LW_LINE_SIDE:
        lw_out_text(out, line->side == LW_SIDE_CROWN ? "crown" : "pavilion");
        break;
    case LW_LINE_STEP:
        lw_out_step(out, cut, layout, &cut->steps[line->index]);
        break;
    }
}

static void comment(lw_out *out, const lw_line *line)
{
    if (line->comment == NULL) {
        return;
    }
    lw_out_text(out, line->kind == LW_LINE_COMMENT ? "#" : "  #");
    lw_out_text(out, line->comment[0] != '\0' ? " " : "");
    lw_out_text(out, line->comment);
}

void lw_out_cut(lw_out *out, const lw_cut *cut)
{
    lw_layout layout = lw_layout_make(cut);
    for (int i = 0; i < cut->line_count; i++) {
        content(out, cut, &layout, &cut->lines[i]);
        comment(out, &cut->lines[i]);
        lw_out_line_end(out);
    }
}

size_t lw_cut_write(const lw_cut *cut, char *text, size_t capacity)
{
    lw_out out = lw_out_make(text, capacity);
    lw_out_cut(&out, cut);
    return lw_out_end(&out);
}
