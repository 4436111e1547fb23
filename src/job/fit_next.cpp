#include "foretone/job/fit_next.hpp"

#include <algorithm>
#include <functional>

#include "foretone/base/parallel.hpp"
#include "foretone/learn/learning.hpp"
#include "foretone/search/words.hpp"
#include "readable.hpp"

namespace foretone::job {

std::vector<FitNext> fit_next(const scene::BoardsFile& boards, const learn::FitResult& result) {
    const auto& q = boards.question;
    material::Materials materials = q.materials;
    auto known = learn::learned_of(result, materials);
    known.hand = q.noise.hand;
    known.board_de = q.noise.board_de;
    const auto solver = appearance::two_flux_solver();
    std::vector<FitNext> out;
    for (const auto& board : q.boards) {
        const auto same = [&](const auto& before) {
            return before.wood == board.wood && search::mixing_line(before.finish) == search::mixing_line(board.finish);
        };
        const auto first = std::find_if(q.boards.begin(), q.boards.end(), same);
        if (&*first != &board) continue;  // another board of the same
        const auto worked = appearance::stages(materials, board.wood, board.finish, q.geometry, solver);
        const auto spread = std::move(appearance::spreads({materials,
                                                           board.wood,
                                                           {board.finish},
                                                           q.geometry,
                                                           solver,
                                                           {q.readings.front().weights},
                                                           appearance::StagesAsked::all,
                                                           known,
                                                           base::parallel_for_all})
                                          .front());
        auto found = next_on_board(worked.stages, std::identity{}, spread);
        out.push_back({board.name, board.wood, std::move(found.readings), std::move(found.next)});
    }
    return out;
}

}  // namespace foretone::job
