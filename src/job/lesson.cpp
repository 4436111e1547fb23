#include "foretone/job/lesson.hpp"

#include <algorithm>
#include <numeric>

#include "foretone/appearance/lattice.hpp"
#include "foretone/base/text.hpp"
#include "foretone/job/aged.hpp"
#include "foretone/job/board.hpp"

namespace foretone::job {
namespace {

std::string stage_name(const appearance::Stage& s, bool several_coats) {
    const std::string coat = several_coats && s.coat > 0 ? ", coat " + std::to_string(s.coat) : "";
    switch (s.kind) {
        case appearance::StageKind::bare:
            return "bare wood";
        case appearance::StageKind::damp:
            return s.action + coat + ", still wet";
        case appearance::StageKind::dry:
            return s.action + coat + ", dry";
        case appearance::StageKind::coated:
            return s.action + coat;
        case appearance::StageKind::finished:
            return s.action + coat + ": finished";
    }
    return "";
}

/// Of more than six stages, those after a step's second and later coats are left out, wet and dry, the latest first;
/// then those after first coats of a film. Bare wood and the finished board stay. It may still be more than six.
std::vector<std::size_t> chosen_stages(const std::vector<SeenStage>& stages) {
    std::vector<std::size_t> out(stages.size());
    std::iota(out.begin(), out.end(), std::size_t{0});
    for (std::size_t i = out.size(); out.size() > most_lesson_boards && i-- > 1;) {
        const auto& s = stages[out[i]].stage;
        if (s.kind != appearance::StageKind::finished && s.coat > 1)
            out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
    }
    for (std::size_t i = out.size(); out.size() > most_lesson_boards && i-- > 1;)
        if (stages[out[i]].stage.kind == appearance::StageKind::coated)
            out.erase(out.begin() + static_cast<std::ptrdiff_t>(i));
    return out;
}

void add_boards(LessonWork& work) {
    const auto& scene = work.preview.scene;
    const auto& first = work.preview.finishes.front();
    const std::size_t last = first.stages.size() - 1;
    if (work.preview.finishes.size() > 1) {
        work.varies = difference_of(scene.finishes, scene.file);
        for (std::size_t f = 0; f < work.preview.finishes.size(); ++f)
            work.boards.push_back(
                {work.preview.finishes[f].name, f, work.preview.finishes[f].stages.size() - 1, 0, std::nullopt});
        return;
    }
    if (!scene.look.after.empty()) {
        work.varies = Varies::years;
        work.boards.push_back({"new", 0, last, 0, std::nullopt});
        for (std::size_t t = 0; t < scene.look.after.size(); ++t)
            work.boards.push_back({after_text(scene.look.after[t], scene.look.exposure), 0, last, 0, t});
        return;
    }
    if (scene.look.lights.size() > 1) {
        work.varies = Varies::light;
        for (std::size_t l = 0; l < scene.look.lights.size(); ++l)
            work.boards.push_back({scene.look.lights[l], 0, last, l, std::nullopt});
        return;
    }
    work.varies = Varies::stage;
    for (const auto s : chosen_stages(first.stages)) {
        const auto& stage = first.stages[s].stage;
        const bool several =
            stage.after_step > 0 && scene.finishes[0].steps[static_cast<std::size_t>(stage.after_step) - 1].coats > 1;
        work.boards.push_back({stage_name(stage, several), 0, s, 0, std::nullopt});
    }
}

/// A shuffle of the scene's own that is not its order, where there is another.
std::vector<std::size_t> shuffled(std::size_t count, std::uint64_t seed) {
    std::vector<std::size_t> out(count);
    std::iota(out.begin(), out.end(), std::size_t{0});
    const auto order = out;
    for (std::uint64_t again = 0; again < 20; ++again) {
        for (std::size_t i = count; i-- > 1;)
            std::swap(out[i], out[static_cast<std::size_t>(appearance::mixed(seed + again, i) % (i + 1))]);
        if (count < 3 || out != order) break;
    }
    return out;
}

/// Of several finishes a lesson shows the new boards under the first light: takes the rest out of the look, and says
/// so.
std::vector<scene::Problem> narrowed(scene::Scene& scene) {
    if (scene.finishes.size() < 2) return {};
    auto& look = scene.look;
    std::vector<std::string> cut;
    if (look.lights.size() > 1) cut.push_back("other lights than " + look.lights.front());
    if (!look.after.empty()) cut.push_back("times after");
    if (cut.empty()) return {};
    look.lights.resize(1);
    look.after.clear();
    return {{"lesson-look",
             {scene.file},
             "a lesson of several finishes shows them new, under one light: " + base::joined(cut, ", ", " and ") +
                 " are left out; a scene of one finish can be a lesson of either"}};
}

}  // namespace

const SeenColor& LessonWork::color(const LessonBoard& board) const {
    const auto& finish = preview.finishes[board.finish];
    return board.time ? finish.aged[*board.time].colors[board.light] : finish.stages[board.stage].colors[board.light];
}

std::string LessonWork::letter(std::size_t board) const {
    const auto at = std::find(lettered.begin(), lettered.end(), board) - lettered.begin();
    return std::string(1, static_cast<char>('A' + at));
}

LessonWork lesson(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver) {
    scene::Scene own = scene;
    if (own.target && !own.target->finish.empty()) own.target.reset();
    if (own.finishes.size() == 1 && !own.look.after.empty() && own.look.lights.size() > 1)
        throw scene::InputError("lesson-boards", {scene.file},
                                "one finish is shown under several lights and after some time: a lesson is about one "
                                "of them; take the lights out of [look], or after");
    if (own.finishes.size() > most_lesson_boards)
        throw scene::InputError("lesson-boards", {scene.file},
                                std::to_string(own.finishes.size()) + " finishes; a lesson has 2 to 6 boards");
    const auto left_out = narrowed(own);
    LessonWork work;
    work.preview = preview(own, library, solver);
    work.preview.warnings.insert(work.preview.warnings.end(), left_out.begin(), left_out.end());
    add_boards(work);
    if (work.boards.size() < least_lesson_boards || work.boards.size() > most_lesson_boards)
        throw scene::InputError("lesson-boards", {scene.file},
                                std::to_string(work.boards.size()) + " boards, " + std::string(word(work.varies)) +
                                    " differing; a lesson has 2 to 6");
    work.lettered = shuffled(work.boards.size(), seed_of(scene.title));
    return work;
}

}  // namespace foretone::job
