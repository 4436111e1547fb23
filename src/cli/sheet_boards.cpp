#include "sheet_boards.hpp"

#include <map>
#include <memory>
#include <utility>

#include "foretone/appearance/tones.hpp"
#include "foretone/picture/rows.hpp"
#include "foretone/picture/screen.hpp"

namespace foretone::cli {
namespace {
using Of = picture::BoardWanted::Of;

constexpr double mm_per_px = 25.4 / picture::client_sheet_dpi;  // true size

/// One piece of wood under everything that is put on it: the same maps for every board of one size.
class Painter {
public:
    Painter(const scene::ClientSheetWork& work, const scene::Library& library, const SheetBoards& how)
        : work_(work), how_(how), wood_(std::get<material::Wood>(scene().shelf.at(scene().wood).data)) {
        const auto observer = library.observer(scene().look.observer);
        for (const auto& id : scene().look.lights) lights_.push_back(color::make_weights(library.illuminant(id), observer));
    }

    picture::Image paint(const picture::BoardWanted& wanted) {
        const auto& maps = maps_of(wanted.width, wanted.height);
        const appearance::ToneTable table(spectra_of(wanted, maps), lights_.at(wanted.light));
        const picture::Screen screen(table.white());
        auto image = picture::Image::filled(wanted.width, wanted.height, {0, 0, 0});
        picture::for_rows(wanted.height, 0, [&](int first, int end) {
            picture::Tally tally;
            for (std::size_t i = maps.at(0, first); i < maps.at(0, end); ++i) {
                const auto tone = table.at(maps.shade[i], maps.uptake[i]);
                const auto code = screen.code(tone.body[0] + tone.surface[0], tone.body[1] + tone.surface[1],
                                              tone.body[2] + tone.surface[2], tally);
                std::copy(code.begin(), code.end(), image.rgb.begin() + static_cast<std::ptrdiff_t>(3 * i));
            }
        });
        return image;
    }

private:
    const scene::Scene& scene() const { return work_.preview.scene; }

    const picture::Maps& maps_of(int width, int height) {
        const auto at = maps_.find({width, height});
        if (at != maps_.end()) return at->second;
        return maps_.emplace(std::pair(width, height), picture::grain(wood_, how_.cut, width, height, mm_per_px, how_.seed))
            .first->second;
    }

    appearance::ToneSpectra spectra_of(const picture::BoardWanted& wanted, const picture::Maps& maps) const {
        const std::size_t finish = wanted.of == Of::bare ? 0 : wanted.of == Of::clear ? work_.clear.value() : wanted.finish;
        const auto boards = appearance::boards(scene().shelf, scene().wood, scene().finishes.at(finish));
        return {wanted.of == Of::bare ? boards.front() : boards.back(), wood_, scene().look.geometry,
                appearance::two_flux_solver(), appearance::ToneRange::covering(maps.shade, maps.uptake)};
    }

    const scene::ClientSheetWork& work_;
    SheetBoards how_;
    const material::Wood& wood_;
    std::vector<color::Weights> lights_;
    std::map<std::pair<int, int>, picture::Maps> maps_;
};

}  // namespace

picture::BoardPainter board_painter(const scene::ClientSheetWork& work, const scene::Library& library, const SheetBoards& how) {
    return [painter = std::make_shared<Painter>(work, library, how)](const picture::BoardWanted& wanted) {
        return painter->paint(wanted);
    };
}

}  // namespace foretone::cli
