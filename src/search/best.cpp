#include "foretone/search/best.hpp"

#include <algorithm>

namespace foretone::search {

void Best::offer(int steps, int colorants, const Found& found) {
    Kind& k = kinds_[static_cast<std::size_t>(steps * (most_colorants_ + 1) + colorants)];
    if (k.size() == room_) {
        if (!closer(found, k.front())) return;
        std::pop_heap(k.begin(), k.end(), closer);
        k.pop_back();
    }
    k.push_back(found);
    std::push_heap(k.begin(), k.end(), closer);
}

void Best::merge(const Best& other) {
    for (int s = 0; s <= most_steps_; ++s)
        for (int c = 0; c <= most_colorants_; ++c)
            for (const auto& f : other.kind(s, c)) offer(s, c, f);
}

std::vector<Found> Best::closest(std::size_t most) const {
    std::vector<Found> all;
    for (const auto& k : kinds_) all.insert(all.end(), k.begin(), k.end());
    std::sort(all.begin(), all.end(), closer);
    if (all.size() > most) all.resize(most);
    return all;
}

std::vector<Found> Best::front() const {
    const auto first = [this](int s, int c) -> const Found* {
        const auto& k = kind(s, c);
        return k.empty() ? nullptr : &*std::min_element(k.begin(), k.end(), closer);
    };
    std::vector<Found> out;
    for (int s = 0; s <= most_steps_; ++s)
        for (int c = 0; c <= most_colorants_; ++c) {
            const Found* own = first(s, c);
            bool beaten = !own;
            for (int s2 = 0; s2 <= s && !beaten; ++s2)
                for (int c2 = 0; c2 <= c && !beaten; ++c2) {
                    const Found* other = s2 == s && c2 == c ? nullptr : first(s2, c2);
                    beaten = other && other->de00 <= own->de00;
                }
            if (!beaten) out.push_back(*own);
        }
    std::sort(out.begin(), out.end(), closer);
    return out;
}

}  // namespace foretone::search
