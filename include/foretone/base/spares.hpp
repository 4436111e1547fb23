#pragma once
/// Work space for calls that come from several threads at once.

#include <array>
#include <atomic>
#include <cstddef>
#include <functional>
#include <memory>
#include <thread>
#include <utility>

namespace foretone::base {

/// Lends objects that are dear to make: a call borrows one for itself alone and gives it back for the next call, of any
/// thread; where none is left, one is made. Which of them a call gets must not show in what it returns. A copy starts
/// without any.
template <class T>
class Spares {
public:
    Spares() = default;
    Spares(const Spares&) {}
    Spares& operator=(const Spares&) = delete;
    ~Spares() {
        for (auto& place : places_) delete place.load();
    }

    /// What `use` returns of an object that is its own while it runs. One that was in use when `use` threw is dropped.
    template <class Use>
    auto with(const Use& use) {
        // Threads begin at places of their own, so that each has mostly what it had before, still in its cache.
        const std::size_t home = std::hash<std::thread::id>()(std::this_thread::get_id());
        std::unique_ptr<T> object = take(home);
        auto out = use(*object);
        give_back(home, std::move(object));
        return out;
    }

private:
    std::atomic<T*>& place(std::size_t i) { return places_[i % places_.size()]; }

    std::unique_ptr<T> take(std::size_t home) {
        for (std::size_t i = 0; i < places_.size(); ++i) {
            if (!place(home + i).load()) continue;
            if (T* object = place(home + i).exchange(nullptr)) return std::unique_ptr<T>(object);
        }
        return std::make_unique<T>();
    }

    /// What lies in a place moves on to the next; the last of more than there are places is dropped.
    void give_back(std::size_t home, std::unique_ptr<T> object) {
        for (std::size_t i = 0; object && i < places_.size(); ++i)
            object.reset(place(home + i).exchange(object.release()));
    }

    std::array<std::atomic<T*>, 16> places_{};
};

}  // namespace foretone::base
