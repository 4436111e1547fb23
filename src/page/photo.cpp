// The user's own board: a photograph with a card, and each finish on it.
#include "foretone/photo/photo.hpp"
#include "foretone/schedule/soaks_in.hpp"

#include "session.hpp"

namespace foretone::page {
namespace {

light::Box box_of(const Json& j) {
    return {j.at(0).get<int>(), j.at(1).get<int>(), j.at(2).get<int>(), j.at(3).get<int>()};
}

}  // namespace

void Session::hold_photo(int width, int height, const std::uint8_t* rgba, std::size_t size) {
    photo_ = photo::pixels_of_srgb(width, height, 4, rgba, size);
}

// {card: [x, y, w, h], reflectance, light_even, finish (none: as it is), kind, light}. Pixels follow.
Json Session::photo(const Json& request) {
    if (photo_.rgb.empty()) throw std::invalid_argument("page::Session: no photograph was handed over");
    if (!last_ || last_text_ != request.at("text").get<std::string>()) look(request);
    const auto& s = *last_;
    const auto& wood = std::get<material::Wood>(s.materials.at(s.wood).data);
    photo::Placing placing;
    placing.cards = {{box_of(request.at("card")), request.at("reflectance").get<double>()}};
    placing.even_light = request.value("light_even", false);
    placing.threads = 1;
    const auto correction = photo::by_card(photo_, placing.cards.front());
    const auto table = [&](const appearance::Board& board, const std::string& light) {
        return appearance::ToneTable(appearance::ToneSpectra(board, wood, s.look.geometry, solver_, photo::photo_range),
                                     weights(light, s.look.observer));
    };
    const auto light = request.value("light", std::string("D65"));
    const photo::PhotoBoard board(photo_, correction, table({}, "D65"), wood, placing);
    photo::FinishedPhoto out;
    bool soaks = false;
    if (request.contains("finish")) {
        const auto i = request["finish"].get<std::size_t>();
        if (i >= s.finishes.size())
            throw std::invalid_argument("page::Session: there is no finish " + std::to_string(i));
        const auto stage = stage_wanted(worked(s, i).stages, request);
        soaks = stage > 0 && schedule::soaks_in(s.finishes[i], s.materials);
        out = board.finished(table(boards(s, i).at(stage), light));
    } else {
        out = board.before();
    }
    show(out.image);
    Json j = {{"width", out.image.width},  {"height", out.image.height},       {"promise", correction.promise},
              {"stops", correction.stops}, {"wood_share", board.wood_share()}, {"chroma_offset", board.chroma_offset()},
              {"notes", Json::array()}};
    for (const auto& n : correction.notes)
        if (photo::worth_telling(n, board.light())) j["notes"].push_back(n.text);
    for (const auto& n : board.notes(soaks)) j["notes"].push_back(n.text);
    return j;
}

}  // namespace foretone::page
