#pragma once
/// Another program that reads an instrument: started, listened to, given keys, ended.

#include <string>
#include <vector>

namespace foretone::cli {

class Instrument {
public:
    /// Throws scene::InputError instrument-missing where there is no such program.
    Instrument(const std::string& program, const std::vector<std::string>& arguments);
    /// Asks it to end, and waits for that.
    ~Instrument();
    Instrument(const Instrument&) = delete;
    Instrument& operator=(const Instrument&) = delete;

    /// What it prints, errors too, can be read here.
    int output() const { return output_; }
    /// One key, and the line's end that it waits for where it is not at a terminal.
    void press(char key) const;

private:
    int output_ = -1, keys_ = -1, id_ = -1;
};

}  // namespace foretone::cli
