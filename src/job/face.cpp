#include "face.hpp"

namespace foretone::job {

Face face_of(const material::Wood& wood, grain::Cut cut, std::uint64_t seed, int width, int height, double dpi) {
    auto maps = grain::grain(wood, cut, width, height, 25.4 / dpi, seed);
    auto spots = appearance::centred(wood, maps.shade);
    return {wood, std::move(maps), std::move(spots)};
}

FaceState state_on(const Face& face, const appearance::Board& board) {
    const auto& m = face.maps;
    auto settled = appearance::mean_matched_spectra(board, face.wood, face.spots, optics::Geometry::g45_0,
                                                    appearance::two_flux_solver(), m.shade, m.uptake, m.pore);
    return {std::move(settled.spectra), light::sheen_of(board, face.wood)};
}

light::Image painted(const Face& face, const FaceState& state, const color::Weights& light) {
    const appearance::ToneTable tones(state.tones, light);
    return light::light_board(face.maps, {tones, state.sheen, light::fibres_of(face.wood)}, {light::View::even, 0})
        .image;
}

}  // namespace foretone::job
