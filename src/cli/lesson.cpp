#include <iostream>
#include <set>

#include "book.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/lesson.hpp"

namespace foretone::cli {
namespace {

void refuse_what_is_for_books(const BookOptions& o) {
    for (const auto& [said, option] : {std::pair(!o.woods.empty(), "--wood"), std::pair(!o.light.empty(), "--light"),
                                       std::pair(o.cards, "--cards"), std::pair(!o.title.empty(), "--title")})
        if (said)
            throw UsageError("option-conflict", {option},
                             std::string(option) + " does not go with --lesson: a lesson shows its scene as it stands");
}

}  // namespace

int run_lesson(const BookOptions& o) {
    refuse_what_is_for_books(o);
    const auto lib = library(o);
    std::vector<job::LessonWork> lessons;
    std::optional<layout::Paper> paper;
    for (const auto& file : o.scenes) {
        const auto scene = scene::read_scene(file, lib);
        if (!paper) paper = paper_for(o.paper, units_for(o, scene));
        lessons.push_back(job::lesson(scene, lib, appearance::two_flux_solver()));
    }
    std::vector<layout::Sheet> pages;
    std::set<std::string> cautions;
    for (std::size_t i = 0; i < lessons.size(); ++i) {
        const auto words = report::lesson_pages(lessons[i], i + 1, lessons.size());
        const auto paint = job::lesson_painter(lessons[i], lib, cut_of(o));
        for (auto& page : layout::lay_out(words, *paper, [&](std::optional<std::size_t> letter, int width, int height) {
                 return paint(letter ? std::optional(lessons[i].lettered[*letter]) : std::nullopt, width, height);
             }))
            pages.push_back(std::move(page));
        for (auto& word : job::cautions_of(lessons[i].preview.scene)) cautions.insert(std::move(word));
    }
    if (lessons.size() > 1) pages.front().title = "Lessons in finishing";  // the files bear the first page's
    const std::string stem = lessons.size() == 1 ? scene::file_stem(o.scenes[0]) + "-lesson" : "lessons";
    const auto json = o.json.empty() ? "" : report::lessons_json(lessons, *paper);
    const auto files = deliver_pages(o, pages, *paper, stem, json);
    for (const auto& w : lessons) print_warnings(o, w.preview.warnings);
    if (o.speaks()) {
        for (const auto& w : lessons) {
            std::cout << w.preview.scene.title << " (differs: " << job::word(w.varies) << ")\n";
            for (const auto& line : report::lesson_answer(w)) std::cout << "  " << line << "\n";
        }
        std::cout << "\nprint on both sides, turned over the long edge; every question is followed by its answer:\n";
        for (const auto& f : files) std::cout << "  " << f << "\n";
    }
    print_cautions(o, {cautions.begin(), cautions.end()});
    return 0;
}

}  // namespace foretone::cli
