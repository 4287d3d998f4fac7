/* The tables that data/tables.awk builds from the text files in data/. Internal to matter. */
#ifndef LW_MATTER_TABLES_H
#define LW_MATTER_TABLES_H

#include "matter/formula.h"
#include "matter/material.h"

extern const lw_formula lw_table_formulas[];
extern const size_t lw_table_formula_count;
extern const lw_material lw_table_materials[];
extern const size_t lw_table_material_count;
extern const lw_source lw_table_sources[];
extern const size_t lw_table_source_count;

#endif
