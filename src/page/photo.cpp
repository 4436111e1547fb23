// The user's own board: a photograph with cards, and each finish on it.
#include "foretone/photo/photo.hpp"
#include "foretone/schedule/soaks_in.hpp"

#include "session.hpp"

namespace foretone::page {
namespace {

light::Box box_of(const Json& j) {
    return {j.at(0).get<int>(), j.at(1).get<int>(), j.at(2).get<int>(), j.at(3).get<int>()};
}

photo::Placing placing_of(const Json& request) {
    photo::Placing out;
    const double reflectance = request.at("reflectance");
    out.cards = {{box_of(request.at("card")), reflectance}};
    for (const auto& more : request.value("more_cards", Json::array()))
        out.cards.push_back({box_of(more), reflectance});
    for (const auto& polygon : request.value("boards", Json::array()))
        out.boards.push_back(polygon.get<photo::Polygon>());
    out.even_light = request.value("light_even", false);
    out.threads = 1;
    return out;
}

}  // namespace

// The board as it was found last, while picture, wood and marks stay.
struct Session::HeldBoard {
    std::string asked;
    photo::Squared upright;
    photo::Correction correction;
    std::unique_ptr<photo::PhotoBoard> board;
};

void Session::hold_photo(int width, int height, const std::uint8_t* rgba, std::size_t size) {
    held_board_.reset();
    photo_ = photo::pixels_of_srgb(width, height, 4, rgba, size);
}

// {card: [x, y, w, h], more_cards: [[x, y, w, h] …], boards: [[[x, y] …] …], corners: [[x, y] × 4], reflectance,
// light_even, second_light (of a lamp beside daylight), finish (none: as it is), kind, light}. Pixels follow.
Json Session::photo(const Json& request) {
    if (photo_.rgb.empty()) throw std::invalid_argument("page::Session: no photograph was handed over");
    if (!last_ || last_text_ != request.at("text").get<std::string>()) look(request);
    const auto& s = *last_;
    const auto& wood = std::get<material::Wood>(s.materials.at(s.wood).data);
    const auto table = [&](const appearance::Board& board, const std::string& light) {
        return appearance::ToneTable(appearance::ToneSpectra(board, wood, s.look.geometry, solver_, photo::photo_range),
                                     weights(light, s.look.observer));
    };
    const auto second = request.value("second_light", std::string());
    Json marks = Json::array({common_});
    for (const char* key : {"card", "more_cards", "boards", "corners", "reflectance", "light_even", "second_light"})
        marks.push_back(request.value(key, Json()));
    if (!held_board_ || held_board_->asked != marks.dump()) {
        held_board_.reset();
        auto next = std::make_shared<HeldBoard>();
        auto placing = placing_of(request);
        std::optional<appearance::ToneTable> in_second;
        if (!second.empty()) placing.second_lamp = &in_second.emplace(table({}, second));
        next->correction = photo::by_card(photo_, placing.cards.front());
        if (request.contains("corners")) {
            next->upright = photo::squared(photo_, request["corners"].get<photo::Corners>(), 0, placing.threads);
            placing.whole = &photo_;
            placing.from_whole = next->upright.from_whole;
            for (auto& polygon : placing.boards) polygon = photo::carried(polygon, next->upright);
        }
        next->board = std::make_unique<photo::PhotoBoard>(request.contains("corners") ? next->upright.pixels : photo_,
                                                          next->correction, table({}, "D65"), wood, placing);
        next->asked = marks.dump();
        held_board_ = std::move(next);
    }
    const auto& board = *held_board_->board;
    const auto& correction = held_board_->correction;
    const auto light = request.value("light", std::string("D65"));
    photo::FinishedPhoto out;
    bool soaks = false;
    std::string unused;
    if (request.contains("finish")) {
        const auto i = request["finish"].get<std::size_t>();
        if (i >= s.finishes.size())
            throw std::invalid_argument("page::Session: there is no finish " + std::to_string(i));
        const auto stage = stage_wanted(worked(s, i).stages, request);
        soaks = stage > 0 && schedule::soaks_in(s.finishes[i], s.materials);
        const auto& finished = boards(s, i).at(stage);
        std::optional<appearance::ToneTable> in_second;
        if (!second.empty()) unused = photo::second_lamp_unused(board.light(), light == "D65");
        if (!second.empty() && unused.empty()) in_second.emplace(table(finished, second));
        out = board.finished(table(finished, light), in_second ? &*in_second : nullptr);
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
    if (!unused.empty()) j["notes"].push_back("the second lamp makes no difference here: " + unused);
    return j;
}

}  // namespace foretone::page
