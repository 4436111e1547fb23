#include "foretone/job/sheet_boards.hpp"

#include <map>
#include <memory>
#include <tuple>
#include <utility>

#include "foretone/appearance/mean_matched.hpp"
#include "foretone/light/board.hpp"

namespace foretone::job {
namespace {
using Of = layout::BoardWanted::Of;

constexpr double mm_per_px = 25.4 / layout::client_sheet_dpi;  // true size

/// Daylight comes through a window, all other light from a lamp.
light::View view_of(const std::string& light) {
    const bool day = light == "C" || (light.size() > 1 && light[0] == 'D' && light[1] >= '0' && light[1] <= '9');
    return day ? light::View::window : light::View::lamp;
}

/// One piece of wood under everything that is put on it: the same maps for every board of one size.
class Painter {
public:
    Painter(const ClientSheetWork& work, const scene::Library& library, const SheetBoards& how)
        : work_(work), how_(how), wood_(std::get<material::Wood>(scene().materials.at(scene().wood).data)) {
        const auto observer = library.observer(scene().look.observer);
        for (const auto& id : scene().look.lights)
            lights_.push_back(color::make_weights(library.illuminant(id), observer));
    }

    light::Image paint(const layout::BoardWanted& wanted) {
        const auto& spectra = spectra_of(wanted);
        const appearance::ToneTable tones(spectra.tones, lights_.at(wanted.light));
        const light::Finished finished{tones, spectra.sheen, light::fibres_of(wood_)};
        const auto& maps = face_of(wanted.width, wanted.height).maps;
        return light::light_board(maps, finished, {view_of(scene().look.lights.at(wanted.light)), 0}).image;
    }

private:
    const scene::Scene& scene() const { return work_.preview.scene; }

    /// The face of one size, and the wood whose spots make the mean wood there.
    struct Face {
        grain::Maps maps;
        material::Wood spots;
    };

    /// A state on a face: under every light the same spots.
    struct State {
        appearance::ToneSpectra tones;
        light::Sheen sheen;
    };

    const State& spectra_of(const layout::BoardWanted& wanted) {
        const std::size_t finish = wanted.of == Of::bare    ? 0
                                   : wanted.of == Of::clear ? work_.clear.value()
                                                            : wanted.finish;
        const std::tuple key{wanted.of == Of::bare, finish, wanted.width, wanted.height};
        const auto at = states_.find(key);
        if (at != states_.end()) return at->second;
        const auto& face = face_of(wanted.width, wanted.height);
        const auto boards = appearance::boards(scene().materials, scene().wood, scene().finishes.at(finish));
        const auto& board = wanted.of == Of::bare ? boards.front() : boards.back();
        auto settled = appearance::mean_matched_spectra(board, wood_, face.spots, optics::Geometry::g45_0,
                                                        appearance::two_flux_solver(), face.maps.shade,
                                                        face.maps.uptake, face.maps.pore);
        return states_.emplace(key, State{std::move(settled.spectra), light::sheen_of(board, wood_)}).first->second;
    }

    const Face& face_of(int width, int height) {
        const auto at = faces_.find({width, height});
        if (at != faces_.end()) return at->second;
        auto maps = grain::grain(wood_, how_.cut, width, height, mm_per_px, how_.seed);
        auto spots = appearance::centred(wood_, maps.shade);
        return faces_.emplace(std::pair(width, height), Face{std::move(maps), std::move(spots)}).first->second;
    }

    const ClientSheetWork& work_;
    SheetBoards how_;
    const material::Wood& wood_;
    std::vector<color::Weights> lights_;
    std::map<std::pair<int, int>, Face> faces_;
    std::map<std::tuple<bool, std::size_t, int, int>, State> states_;
};

}  // namespace

layout::BoardPainter board_painter(const ClientSheetWork& work, const scene::Library& library, const SheetBoards& how) {
    return [painter = std::make_shared<Painter>(work, library, how)](const layout::BoardWanted& wanted) {
        return painter->paint(wanted);
    };
}

}  // namespace foretone::job
