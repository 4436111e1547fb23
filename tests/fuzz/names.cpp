#include <cstdint>
#include <set>
#include <string>

#include "foretone/base/text.hpp"
#include "foretone/base/utf8.hpp"
#include "foretone/scene/names.hpp"

namespace {

void require(bool held) {
    if (!held) __builtin_trap();
}

}  // namespace

// Lines are names: whatever stands in them, each gets a word of its own that can be a file's name.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace foretone;
    const auto lines = base::split({reinterpret_cast<const char*>(data), size}, '\n');
    const std::set<std::string> names(lines.begin(), lines.end());
    const auto words = scene::file_words({names.begin(), names.end()}, {"bare", "match"});
    require(words.size() == names.size());
    std::set<std::string> seen = {"bare", "match"};
    for (const auto& word : words) {
        require(seen.insert(word).second);
        require(!word.empty() && word.size() <= 60 + 17 && word[0] != '.' && word[0] != '-');
        require(word.find('/') == std::string::npos);
        for (const auto point : base::code_points(word)) require(!base::is_control(point) && point != 0xFFFD);
    }
    return 0;
}
