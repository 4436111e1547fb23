#pragma once
/// What a bad file is told: every fault by its id, its place to the column, and part of its words.

#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "foretone/base/number.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"

namespace foretone::test {

/// Line and column of the last `words` in `text`, counted from 1; ASCII only.
inline scene::Place place_in(const std::string& text, const std::string& words) {
    const auto at = text.rfind(words);
    if (at == std::string::npos) FAIL("the text holds no '" << words << "'");
    scene::Place out{"", 1, 1};
    for (std::size_t i = 0; i < at; ++i) {
        ++out.column;
        if (text[i] == '\n') ++out.line, out.column = 1;
    }
    return out;
}

/// One of `found` has that id, place and words; all are shown if none has.
inline void holds_fault(const std::vector<scene::Problem>& found, const std::string& id, std::size_t line,
                        std::size_t column, const std::string& says) {
    bool matched = false;
    for (const auto& p : found) {
        UNSCOPED_INFO(p.place.text() << ": " << p.text << " [" << p.id << "]");
        matched = matched || (p.id == id && p.place.line == line && p.place.column == column &&
                              p.text.find(says) != std::string::npos);
    }
    INFO("due: " << line << ":" << column << ": " << says << " [" << id << "]");
    CHECK(matched);
}

/// What `call` is refused with; nothing if it is not.
template <class Call>
std::vector<scene::Problem> faults_of(Call call) {
    try {
        call();
    } catch (const scene::InputError& e) {
        return e.problems;
    }
    return {};
}

inline scene::Scene scene_from(const std::string& text, const std::filesystem::path& folder = ".") {
    return scene::read_scene_text(text, "test.toml", folder, library());
}

inline std::vector<scene::Problem> scene_faults(const std::string& text, const std::filesystem::path& folder = ".") {
    return faults_of([&] { scene_from(text, folder); });
}

/// The scene `text` is refused, the fault being at the last `words` in it.
inline void refuses(const std::string& text, const std::string& id, const std::string& words, const std::string& says) {
    INFO(text);
    const auto at = place_in(text, words);
    holds_fault(scene_faults(text), id, at.line, at.column, says);
}

}  // namespace foretone::test
