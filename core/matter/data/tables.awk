# Builds the C tables of core/matter from sources.txt, formulas.txt and species.txt, in that order:
#   awk -f tables.awk sources.txt formulas.txt species.txt > tables.c
# The files' own heads describe their lines. Numbers are checked and then copied as they stand, so
# that the C compiler rounds them. Anything unexpected stops the build with file and line.
# Plain POSIX awk: mawk, gawk and busybox give the same bytes.

function fail(message)
{
    printf "%s:%d: %s\n", FILENAME, FNR, message > "/dev/stderr"
    failed = 1
    exit 1
}

function number(text)
{
    if (text !~ /^-?[0-9]+(\.[0-9]+)?(e-?[0-9]+)?$/) {
        fail("'" text "' is not a number")
    }
    return text
}

function floating(text)
{
    number(text)
    return text ~ /[.e]/ ? text : text ".0"
}

function quoted(text)
{
    gsub(/\\/, "\\\\", text)
    gsub(/"/, "\\\"", text)
    return "\"" text "\""
}

function trimmed(text)
{
    sub(/^[ \t]+/, "", text)
    sub(/[ \t\r]+$/, "", text)
    return text
}

function member(word, set, what)
{
    if (index(" " set " ", " " word " ") == 0) {
        fail("'" word "' is no " what ": " set)
    }
    return word
}

# "beryllium heat" -> "LW_CAUTION_BERYLLIUM | LW_CAUTION_HEAT"
function cautions(text, words, count, i, out)
{
    count = split(text, words, /[ \t]+/)
    out = ""
    for (i = 1; i <= count; i++) {
        if (words[i] !~ /^[a-z]+$/) {
            fail("'" words[i] "' is no caution")
        }
        out = out (out == "" ? "" : " | ") "LW_CAUTION_" toupper(words[i])
    }
    return out == "" ? "0" : out
}

# "agreed: schumann pages; remark" -> an lw_origin
function origin(text, colon, semicolon, trust, from, remark, words, count, i)
{
    text = trimmed(text)
    semicolon = index(text, ";")
    remark = semicolon ? trimmed(substr(text, semicolon + 1)) : ""
    if (semicolon) {
        text = trimmed(substr(text, 1, semicolon - 1))
    }
    colon = index(text, ":")
    trust = colon ? substr(text, 1, colon - 1) : text
    from = colon ? trimmed(substr(text, colon + 1)) : ""
    if (!(trust in trust_name)) {
        fail("'" trust "' is no degree of trust")
    }
    count = split(from, words, /[ \t]+/)
    for (i = 1; i <= count; i++) {
        if (!(words[i] in source_known)) {
            fail("'" words[i] "' is not in sources.txt")
        }
    }
    if (count == 0 && trust != "estimated" && trust != "none") {
        fail("a figure without a source")
    }
    return "{" trust_name[trust] ", " quoted(from) ", " quoted(remark) "}"
}

function begin_formula(key, ray)
{
    end_formula()
    member(ray, "iso o e x y z", "ray")
    if ((key, ray) in formula_at) {
        fail("formula " key " " ray " stands twice")
    }
    formula_at[key, ray] = formula_count++
    in_formula = 1
    split("", f)
    f["key"] = key
    f["ray"] = ray
    nr = np = nw = 0
}

function end_formula()
{
    if (!in_formula) {
        return
    }
    if (f["range"] == "" || f["constant"] == "" || f["paper"] == "") {
        fail("formula " f["key"] " " f["ray"] " lacks its range, its constant or its paper")
    }
    formula_text[formula_count - 1] = sprintf( \
        "    {%s, %s, %s, %s, %s,\n     %d, %d, %d, {%s}, {%s}, {%s},\n     %s, %s},\n", \
        quoted(f["key"]), quoted(f["ray"]), f["range"], f["plain"], f["constant"], nr, np, nw, \
        nr ? f["resonance"] : "{0.0, 0.0}", np ? f["pole"] : "{0.0, 0.0}", nw ? f["power"] : "{0.0, 0.0}", \
        quoted(f["paper"]), quoted(f["record"]))
    in_formula = 0
}

function formula_term(kind)
{
    f[kind] = f[kind] (f[kind] == "" ? "" : ", ") "{" floating($2) ", " floating($3) "}"
}

function formula_line(word, rest)
{
    if (word == "formula") {
        begin_formula($2, $3)
    } else if (word == "range") {
        f["range"] = floating($2) ", " floating($3)
    } else if (word == "square" || word == "plain") {
        f["plain"] = word == "plain" ? "true" : "false"
        f["constant"] = floating($2)
    } else if (word == "resonance") {
        nr++
        formula_term(word)
    } else if (word == "pole") {
        np++
        formula_term(word)
    } else if (word == "power") {
        nw++
        formula_term(word)
    } else if (word == "paper" || word == "record") {
        f[word] = rest
    } else {
        fail("'" word "' is no line of a formula")
    }
    if (nr > 6 || np > 6 || nw > 6) {
        fail("more terms than lw_formula holds")
    }
}

function begin_species(key)
{
    end_species()
    if (key !~ /^[a-z][a-z0-9_]*$/ || key in species_known) {
        fail("'" key "' is no new key")
    }
    species_known[key] = 1
    in_species = 1
    split("", s)
    s["key"] = key
    s["varieties"] = "NULL, 0"
    s["formula"] = "NULL, false"
    s["cautions"] = "0"
    s["seldom"] = "false"
}

function end_species()
{
    if (!in_species) {
        return
    }
    if (s["name"] == "" || s["crystal"] == "" || s["index"] == "" || s["sg"] == "" ||
        s["dispersion"] == "" || s["mohs"] == "" || s["cleavage"] == "") {
        fail("species " s["key"] " lacks a line")
    }
    species_text[species_count++] = sprintf( \
        "    {%s, %s, %s, %s,\n     %s,\n     %s,\n     %s,\n     %s, %s, %s,\n" \
        "     %s,\n     %s, %s,\n     %s},\n", \
        quoted(s["key"]), quoted(s["name"]), s["varieties"], s["crystal"], s["index"], s["sg"], \
        s["dispersion"], s["formula"], s["mohs"], s["cleavage"], s["cautions"], \
        quoted(s["polish"]), s["seldom"], quoted(s["note"]))
    in_species = 0
}

function varieties(text, parts, count, i, name, own, open, out)
{
    count = split(text, parts, /,[ \t]*/)
    out = ""
    for (i = 1; i <= count; i++) {
        name = parts[i]
        own = ""
        open = index(name, "[")
        if (open) {
            own = substr(name, open + 1, length(name) - open - 1)
            name = trimmed(substr(name, 1, open - 1))
        }
        out = out "    {" quoted(name) ", " cautions(own) "},\n"
    }
    variety_text = variety_text "static const lw_variety varieties_" s["key"] "[] = {\n" out "};\n"
    s["varieties"] = "varieties_" s["key"] ", " count
}

function crystal()
{
    member($2, "cubic tetragonal hexagonal trigonal orthorhombic monoclinic triclinic aggregate " \
        "metamict amorphous", "crystal system")
    if (!($3 in optic_name)) {
        fail("'" $3 "' is no optic character")
    }
    s["rays"] = $3 == "isotropic" ? 1 : $3 ~ /^uniaxial/ ? 2 : 3
    s["optic"] = $3
    s["crystal"] = "LW_CRYSTAL_" toupper($2) ", " optic_name[$3]
}

function indices(rest, i, values, bounds, low, high)
{
    values = ""
    low = high = $2 + 0
    for (i = 2; i < 2 + s["rays"]; i++) {
        values = values (i > 2 ? ", " : "") floating($i)
        low = $i + 0 < low ? $i + 0 : low
        high = $i + 0 > high ? $i + 0 : high
    }
    if ($i != "spread" || split($(i + 1), bounds, "-") != 2 || $(i + 2) != ";") {
        fail("expected " s["rays"] " indices, 'spread LOW-HIGH' and ';'")
    }
    if (bounds[1] + 0 > low || bounds[2] + 0 < high) {
        fail("the typical indices leave the spread")
    }
    s["index"] = s["rays"] ", {" values "}, " floating(bounds[1]) ", " floating(bounds[2]) ", " \
        origin(substr(rest, index(rest, ";") + 1))
}

function gravity(rest)
{
    if ($2 + 0 > $3 + 0 || $3 + 0 > $4 + 0 || $5 != ";") {
        fail("expected LOW TYPICAL HIGH in order, and ';'")
    }
    s["sg"] = floating($2) ", " floating($3) ", " floating($4) ", " \
        origin(substr(rest, index(rest, ";") + 1))
}

function dispersion(rest, source)
{
    source = origin(substr(rest, index(rest, ";") + 1))
    if ($2 == "unknown" && $3 == ";") {
        s["dispersion"] = "0.0, 0.0, " source
    } else if ($3 == "c" && $5 == ";") {
        s["dispersion"] = floating($2) ", " floating($4) ", " source
    } else {
        fail("expected 'B-G c C ;' or 'unknown ;'")
    }
}

function published(key, first, i)
{
    first = s["rays"] == 1 ? "iso" : s["rays"] == 2 ? "o" : "x"
    if (!((key, first) in formula_at)) {
        fail("formulas.txt has no " key " " first)
    }
    if ($3 != "" && $3 != "fitted") {
        fail("'" $3 "' after a formula's key")
    }
    i = formula_at[key, first]
    if (s["rays"] == 2 && formula_at[key, "e"] != i + 1 ||
        s["rays"] == 3 && (formula_at[key, "y"] != i + 1 || formula_at[key, "z"] != i + 2)) {
        fail("the rays of " key " do not stand together in order in formulas.txt")
    }
    s["formula"] = "&lw_table_formulas[" i "], " ($3 == "fitted" ? "true" : "false")
}

function cleavage(rest, semicolon)
{
    member($2, "none poor fair good perfect", "quality of cleavage")
    semicolon = index(rest, ";")
    s["cleavage"] = "LW_CLEAVAGE_" toupper($2) ", " \
        quoted(semicolon ? trimmed(substr(rest, semicolon + 1)) : "")
}

function species_line(word, rest)
{
    if (word == "species") {
        begin_species($2)
    } else if (word == "name" || word == "note") {
        s[word] = rest
    } else if (word == "also") {
        varieties(rest)
    } else if (word == "crystal") {
        crystal()
    } else if (word == "index") {
        indices(rest)
    } else if (word == "sg") {
        gravity(rest)
    } else if (word == "dispersion") {
        dispersion(rest)
    } else if (word == "formula") {
        published($2)
    } else if (word == "mohs") {
        s["mohs"] = floating($2) ", " floating($3)
    } else if (word == "cleavage") {
        cleavage(rest)
    } else if (word == "caution") {
        s["cautions"] = cautions(rest)
    } else if (word == "met") {
        member(rest, "seldom", "word for how often a stone is met")
        s["seldom"] = "true"
    } else if (word == "polish") {
        s["polish"] = member(rest, "cerium alumina diamond", "polish")
    } else {
        fail("'" word "' is no line of a species")
    }
}

BEGIN {
    trust_name["agreed"] = "LW_TRUST_AGREED"
    trust_name["single"] = "LW_TRUST_SINGLE"
    trust_name["single+b"] = "LW_TRUST_SINGLE_PLUS"
    trust_name["memory+b"] = "LW_TRUST_MEMORY_PLUS"
    trust_name["memory"] = "LW_TRUST_MEMORY"
    trust_name["formula"] = "LW_TRUST_FORMULA"
    trust_name["conflict"] = "LW_TRUST_CONFLICT"
    trust_name["estimated"] = "LW_TRUST_ESTIMATED"
    trust_name["none"] = "LW_TRUST_NONE"
    optic_name["isotropic"] = "LW_OPTIC_ISOTROPIC"
    optic_name["uniaxial+"] = "LW_OPTIC_UNIAXIAL_POSITIVE"
    optic_name["uniaxial-"] = "LW_OPTIC_UNIAXIAL_NEGATIVE"
    optic_name["biaxial+"] = "LW_OPTIC_BIAXIAL_POSITIVE"
    optic_name["biaxial-"] = "LW_OPTIC_BIAXIAL_NEGATIVE"
    optic_name["biaxial"] = "LW_OPTIC_BIAXIAL"
}

FNR == 1 { file++ }
/^[ \t\r]*(#|$)/ { next }

{
    text = trimmed($0)
    blank = index(text, " ")
    word = blank ? substr(text, 1, blank - 1) : text
    rest = blank ? trimmed(substr(text, blank + 1)) : ""
    if (rest == "") {
        fail("nothing follows '" word "'")
    }
}

file == 1 {
    source_known[word] = 1
    source_text = source_text "    {" quoted(word) ", " quoted(rest) "},\n"
    source_count++
}
file == 2 { formula_line(word, rest) }
file == 3 {
    end_formula()
    species_line(word, rest)
}

END {
    if (failed) {
        exit 1
    }
    end_species()
    if (species_count == 0) {
        print "tables.awk: no species" > "/dev/stderr"
        exit 1
    }
    print "/* Built from core/matter/data by tables.awk; edit the text there. */"
    print "#include \"matter/tables.h\"\n"
    print "const lw_source lw_table_sources[] = {\n" source_text "};"
    print "const size_t lw_table_source_count = " source_count ";\n"
    print "const lw_formula lw_table_formulas[] = {"
    for (i = 0; i < formula_count; i++) {
        printf "%s", formula_text[i]
    }
    print "};\nconst size_t lw_table_formula_count = " formula_count ";\n"
    print variety_text
    print "const lw_material lw_table_materials[] = {"
    for (i = 0; i < species_count; i++) {
        printf "%s", species_text[i]
    }
    print "};\nconst size_t lw_table_material_count = " species_count ";"
}
