// The core's three doors: ask, take the pixels, and the door back by which long work tells how far it is.
#include <cstring>
#include <string>

#include "held_files.hpp"
#include "session.hpp"

extern "C" {

/// Given by the page: told the share done, 0–1.
void foretone_progress(double share);

/// The answer to a request of so many bytes (UTF-8 JSON), ended by a zero; stays until the next request.
const char* foretone_answer(const char* request, std::size_t size);

/// Where the pixels of the last answer lie.
const unsigned char* foretone_pixels();

/// Makes a file known by name, so that a scene can refer to it.
void foretone_hold(const char* name, std::size_t name_size, const char* bytes, std::size_t size);

/// Hands over a photograph: RGBA, rows from the top.
void foretone_photo(int width, int height, const unsigned char* rgba, std::size_t size);
}

namespace {

foretone::page::Session& session() {
    static foretone::page::Session one;
    one.progress = foretone_progress;
    return one;
}

}  // namespace

const char* foretone_answer(const char* request, std::size_t size) {
    static std::string answer;
    answer = session().answer(std::string(request, size));
    return answer.c_str();
}

const unsigned char* foretone_pixels() { return session().pixels().data(); }

void foretone_hold(const char* name, std::size_t name_size, const char* bytes, std::size_t size) {
    foretone::page::held_files()[std::string(name, name_size)] = std::string(bytes, size);
}

void foretone_photo(int width, int height, const unsigned char* rgba, std::size_t size) {
    session().hold_photo(width, height, rgba, size);
}
