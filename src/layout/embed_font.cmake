# Writes OUTPUT, a C++ file that holds the bytes of FONT as foretone::layout::font_NAME(). A string literal, because compilers
# read one far faster than an array of as many numbers.
file(READ ${FONT} bytes HEX)
string(LENGTH "${bytes}" digits)
math(EXPR size "${digits} / 2")
string(REGEX REPLACE "(..)" "\\\\x\\1" escaped "${bytes}")
file(WRITE ${OUTPUT} "// Made from ${FONT}.
#include \"font_data.hpp\"

#pragma GCC diagnostic ignored \"-Woverlength-strings\"

namespace foretone::layout {
FontData font_${NAME}() {
    static constexpr char bytes[] = \"${escaped}\";
    return {reinterpret_cast<const unsigned char*>(bytes), ${size}};
}
}  // namespace foretone::layout
")
