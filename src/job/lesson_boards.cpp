#include <map>
#include <memory>
#include <tuple>

#include "face.hpp"
#include "foretone/job/aged.hpp"
#include "foretone/job/board.hpp"
#include "foretone/job/lesson.hpp"

namespace foretone::job {
namespace {

constexpr double lesson_dpi = 200;

class LessonBoards {
public:
    LessonBoards(const LessonWork& work, const scene::Library& library, grain::Cut cut) : work_(work), cut_(cut) {
        const auto observer = library.observer(scene().look.observer);
        for (const auto& id : scene().look.lights)
            lights_.push_back(color::make_weights(library.illuminant(id), observer));
    }

    light::Image paint(std::optional<std::size_t> board, int width, int height) {
        const LessonBoard unfinished{};
        const auto& b = board ? work_.boards.at(*board) : unfinished;
        if (b.time) {
            const auto old = aged_finish(scene(), b.finish, scene().look.after.at(*b.time));
            const auto face = face_of(old.wood_data(), cut_, seed_of(scene().title), width, height, lesson_dpi);
            return painted(face, state_on(face, appearance::boards(old.materials, old.wood, old.finish).back()),
                           lights_.at(b.light));
        }
        const auto boards = appearance::boards(scene().materials, scene().wood, scene().finishes.at(b.finish));
        const auto& face = fresh(width, height);
        return painted(face, state_on(face, boards.at(b.stage)), lights_.at(b.light));
    }

private:
    const scene::Scene& scene() const { return work_.preview.scene; }

    const Face& fresh(int width, int height) {
        const auto at = faces_.find({width, height});
        if (at != faces_.end()) return at->second;
        auto face = face_of(scene().wood_data(), cut_, seed_of(scene().title), width, height, lesson_dpi);
        return faces_.emplace(std::pair(width, height), std::move(face)).first->second;
    }

    const LessonWork& work_;
    grain::Cut cut_;
    std::vector<color::Weights> lights_;
    std::map<std::pair<int, int>, Face> faces_;
};

}  // namespace

LessonPainter lesson_painter(const LessonWork& work, const scene::Library& library, grain::Cut cut) {
    return [boards = std::make_shared<LessonBoards>(work, library, cut)](
               std::optional<std::size_t> board, int width, int height) { return boards->paint(board, width, height); };
}

}  // namespace foretone::job
