# Writes OUTPUT, a C++ file in which FUNCTION returns every file of FOLDER named in LIST (separated by '|') as text.
string(REPLACE "|" ";" files "${LIST}")
list(SORT files)
set(body "")
foreach(file IN LISTS files)
  file(READ ${FOLDER}/${file} bytes HEX)
  string(REGEX REPLACE "(..)" "\\\\x\\1" escaped "${bytes}")
  string(LENGTH "${bytes}" digits)
  math(EXPR size "${digits} / 2")
  string(APPEND body "        {\"${file}\", std::string_view(\"${escaped}\", ${size})},\n")
endforeach()
file(WRITE ${OUTPUT} "// Made from the files of ${FOLDER}.
#include \"foretone/scene/library.hpp\"

#pragma GCC diagnostic ignored \"-Woverlength-strings\"

namespace foretone::scene {
std::vector<EmbeddedFile> ${FUNCTION}() {
    return {
${body}    };
}
}  // namespace foretone::scene
")
