/* Display list to PDF, SVG and PNG, by cairo and pango with the DejaVu fonts.
 *
 * The same list gives the same bytes: dates are fixed, and so are the names that cairo gives to
 * what stands in an SVG. Bytes are promised for one set of library and font versions, not across
 * them. Letters are measured without hinting, so that a line breaks at the same word in every
 * format. Not thread safe: pango's font map is shared.
 */
#ifndef LW_SHEET_PAINT_CAIRO_H
#define LW_SHEET_PAINT_CAIRO_H

#include "sheet/display_list.h"

typedef enum lw_paint_format {
    LW_PAINT_PDF,
    LW_PAINT_SVG,
    LW_PAINT_PNG,
    LW_PAINT_FORMATS
} lw_paint_format;

/* Dots an inch of a PNG. */
#define LW_PAINT_PNG_DPI 150.0

typedef struct lw_painter lw_painter;

/* The fonts, ready to measure and to paint. LW_NO_MEMORY. Destroy takes NULL too. */
lw_status lw_painter_new(const lw_memory *memory, lw_painter **out);
void lw_painter_destroy(lw_painter *painter);

/* Measures letters as they will be painted; lives as long as the painter. */
lw_metrics lw_painter_metrics(lw_painter *painter);

/* Called with the file's bytes, piece by piece; false ends the painting. */
typedef bool lw_paint_sink(void *context, const void *bytes, size_t length);

/* Paints a page (from 0), or with page -1 all of them: one after the other in a PDF, one below the
 * other in an SVG and a PNG. title goes into the PDF; may be NULL. LW_TOO_LARGE when a picture of
 * all pages passes what a PNG can hold; LW_BAD_INPUT when the sink refused; LW_NO_MEMORY. */
lw_status lw_paint(lw_painter *painter, const lw_display_list *list, int page,
                   lw_paint_format format, const char *title, lw_paint_sink *sink, void *context);

#endif
