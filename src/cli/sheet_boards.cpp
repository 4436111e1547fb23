#include "sheet_boards.hpp"

namespace foretone::cli {
namespace {
using Of = picture::BoardWanted::Of;

const scene::SeenStage& stage_of(const scene::ClientSheetWork& work, const picture::BoardWanted& wanted) {
    const auto& finishes = work.preview.finishes;
    if (wanted.of == Of::bare) return finishes.front().stages.front();
    return finishes.at(wanted.of == Of::clear ? work.clear.value() : wanted.finish).stages.back();
}

}  // namespace

picture::BoardPainter board_painter(const scene::ClientSheetWork& work) {
    return [&work](const picture::BoardWanted& wanted) {
        return picture::Image::filled(wanted.width, wanted.height, stage_of(work, wanted).colors.at(wanted.light).screen.code);
    };
}

}  // namespace foretone::cli
