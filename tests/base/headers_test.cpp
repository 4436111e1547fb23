// A public header asks for every standard header whose names it uses, itself or by the project's headers it includes:
// all of them are compiled after the standard ones (headers_alone), so the compiler would not miss any.
// Which header declares which name: C++20, ISO/IEC 14882:2020, the synopses of clauses 16 to 32.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace {
namespace fs = std::filesystem;

const std::map<std::string, std::set<std::string>>& declared_in() {
    static const std::set<std::string> integers = {"cstdint"}, sizes = {"cstddef"}, maths = {"cmath"};
    static const std::map<std::string, std::set<std::string>> all = {
        {"abs", {"cmath", "cstdlib"}},
        {"array", {"array"}},
        {"atomic", {"atomic"}},
        {"bit_cast", {"bit"}},
        {"filesystem", {"filesystem"}},
        {"floor", maths},
        {"function", {"functional"}},
        {"get", {"array", "tuple", "utility", "variant"}},
        {"hash", {"functional", "memory", "optional", "string", "string_view", "thread", "variant", "vector"}},
        {"holds_alternative", {"variant"}},
        {"int64_t", integers},
        {"invalid_argument", {"stdexcept"}},
        {"is_trivially_copyable_v", {"type_traits"}},
        {"less", {"functional", "map", "set"}},
        {"make_unique", {"memory"}},
        {"map", {"map"}},
        {"move", {"utility"}},
        {"nullopt", {"optional"}},
        {"numbers", {"numbers"}},
        {"numeric_limits", {"limits"}},
        {"optional", {"optional"}},
        {"out_of_range", {"stdexcept"}},
        {"pair", {"utility", "map"}},
        {"runtime_error", {"stdexcept"}},
        {"set", {"set"}},
        {"shared_ptr", {"memory"}},
        {"size_t", sizes},
        {"span", {"span"}},
        {"sqrt", maths},
        {"string", {"string"}},
        {"string_view", {"string_view", "string"}},
        {"this_thread", {"thread"}},
        {"thread", {"thread"}},
        {"uint16_t", integers},
        {"uint32_t", integers},
        {"uint64_t", integers},
        {"uint8_t", integers},
        {"unique_ptr", {"memory"}},
        {"variant", {"variant"}},
        {"vector", {"vector"}},
    };
    return all;
}

std::string text_of(const fs::path& file) {
    std::ifstream in(file);
    std::stringstream out;
    out << in.rdbuf();
    return out.str();
}

// A header without its comments.
std::string code_of(const fs::path& file) {
    static const std::regex comment("//[^\n]*|/\\*[^]*?\\*/");
    return std::regex_replace(text_of(file), comment, "");
}

std::set<std::string> matches(const std::string& code, const std::regex& what) {
    std::set<std::string> out;
    for (std::sregex_iterator it(code.begin(), code.end(), what), end; it != end; ++it) out.insert((*it)[1]);
    return out;
}

// Standard headers that a header brings in, by itself and through the project's own.
void add_brought(const fs::path& root, const std::string& header, std::set<std::string>& seen,
                 std::set<std::string>& out) {
    if (!seen.insert(header).second) return;
    static const std::regex standard("#include <([a-z0-9_]+)>"), own("#include \"(foretone/[^\"]+)\"");
    const std::string code = text_of(root / header);
    out.merge(matches(code, standard));
    for (const auto& included : matches(code, own)) add_brought(root, included, seen, out);
}

}  // namespace

TEST_CASE("every public header asks for the standard headers whose names it uses", "[headers]") {
    const fs::path root = FORETONE_INCLUDE;
    static const std::regex name("std::([a-z_0-9]+)");
    std::size_t headers = 0, names = 0;
    for (const auto& entry : fs::recursive_directory_iterator(root)) {
        if (entry.path().extension() != ".hpp") continue;
        ++headers;
        const std::string header = fs::relative(entry.path(), root).generic_string();
        std::set<std::string> seen, brought;
        add_brought(root, header, seen, brought);
        for (const auto& used : matches(code_of(entry.path()), name)) {
            INFO(header << " uses std::" << used);
            ++names;
            const auto declared = declared_in().find(used);
            REQUIRE(declared != declared_in().end());  // a name that is new here: add the header that declares it
            bool there = false;
            for (const auto& h : declared->second) there = there || brought.count(h) > 0;
            CHECK(there);
        }
    }
    CHECK(headers > 200);
    CHECK(names > 500);
}
