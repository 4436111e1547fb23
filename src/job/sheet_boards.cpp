#include "foretone/job/sheet_boards.hpp"

#include <map>
#include <memory>
#include <tuple>
#include <utility>

#include "face.hpp"

namespace foretone::job {
namespace {
using Of = layout::BoardWanted::Of;

/// One piece of wood under everything that is put on it: the same maps for every board of one size.
class Painter {
public:
    Painter(const ClientSheetWork& work, const scene::Library& library, const SheetBoards& how)
        : work_(work), how_(how) {
        const auto observer = library.observer(scene().look.observer);
        for (const auto& id : scene().look.lights)
            lights_.push_back(color::make_weights(library.illuminant(id), observer));
    }

    light::Image paint(const layout::BoardWanted& wanted) {
        return painted(face(wanted.width, wanted.height), state(wanted), lights_.at(wanted.light));
    }

private:
    const scene::Scene& scene() const { return work_.preview.scene; }

    const FaceState& state(const layout::BoardWanted& wanted) {
        const std::size_t finish = wanted.of == Of::bare    ? 0
                                   : wanted.of == Of::clear ? work_.clear.value()
                                                            : wanted.finish;
        const std::tuple key{wanted.of == Of::bare, finish, wanted.width, wanted.height};
        const auto at = states_.find(key);
        if (at != states_.end()) return at->second;
        const auto boards = appearance::boards(scene().materials, scene().wood, scene().finishes.at(finish));
        const auto& board = wanted.of == Of::bare ? boards.front() : boards.back();
        return states_.emplace(key, state_on(face(wanted.width, wanted.height), board)).first->second;
    }

    const Face& face(int width, int height) {
        const auto at = faces_.find({width, height});
        if (at != faces_.end()) return at->second;
        auto made = face_of(scene().wood_data(), how_.cut, how_.seed, width, height, layout::client_sheet_dpi);
        return faces_.emplace(std::pair(width, height), std::move(made)).first->second;
    }

    const ClientSheetWork& work_;
    SheetBoards how_;
    std::vector<color::Weights> lights_;
    std::map<std::pair<int, int>, Face> faces_;
    std::map<std::tuple<bool, std::size_t, int, int>, FaceState> states_;
};

}  // namespace

layout::BoardPainter board_painter(const ClientSheetWork& work, const scene::Library& library, const SheetBoards& how) {
    return [painter = std::make_shared<Painter>(work, library, how)](const layout::BoardWanted& wanted) {
        return painter->paint(wanted);
    };
}

}  // namespace foretone::job
