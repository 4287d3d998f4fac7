# cmake -DOUT=FILE.c -DTABLE=NAME -DTYPE=NAME -DTEXTS=a;b;c -P EmbedTexts.cmake
#
# Writes a C file with the bytes of each text and a table of them, sorted by name (the file's name
# without its ending). Bytes as they are: what is embedded is what stands in the folder. TYPE is the
# struct of a row, which a header of its name (without lw_) declares.
string(REGEX REPLACE "^lw_" "" header ${TYPE})
set(body "/* Made at build time from texts. */\n#include \"${header}.h\"\n\n")
set(rows "")
set(count 0)
list(SORT TEXTS)
foreach(text ${TEXTS})
  get_filename_component(name ${text} NAME_WE)
  file(READ ${text} hex HEX)
  string(REGEX REPLACE "(..)" "0x\\1," bytes "${hex}")
  string(REGEX REPLACE "(................................................................................)"
         "\\1\n" bytes "${bytes}")
  string(APPEND body "static const unsigned char text_${count}[] = {\n${bytes}0};\n")
  string(APPEND rows
         "    {\"${name}\", (const char *)text_${count}, sizeof text_${count} - 1},\n")
  math(EXPR count "${count} + 1")
endforeach()
# One row more, so that the array is never empty.
string(APPEND body "\nconst ${TYPE} ${TABLE}[] = {\n${rows}    {0, 0, 0},\n};\n"
       "const int ${TABLE}_count = ${count};\n")
file(WRITE ${OUT} "${body}")
