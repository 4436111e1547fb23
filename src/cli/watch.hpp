#pragma once
/// A run that takes a while: what it shows on a terminal, and how it stops.

#include <string>

namespace foretone::cli {

/// Lives as long as a run. On a terminal a line on standard error tells, from the second second on, how long the run
/// has taken and how far it is; in a pipe nothing is shown. Ctrl-C (SIGINT), SIGTERM and SIGHUP end the run at once,
/// but for two times: while results are written (it ends when they are), and while a `Stoppable` lives. A signal that
/// was ignored at the start (nohup, a shell's `&`) stays ignored.
class Watch {
public:
    Watch(std::string verb, bool quiet);
    ~Watch();
    Watch(const Watch&) = delete;
    Watch& operator=(const Watch&) = delete;
};

/// How far the run is, for the line: "boards drawn: 3 of 8".
void tell(const std::string& words);

/// Takes the line away for good: results follow.
void end_progress();

/// While it lives, the first signal asks the work to stop where it can be left, so that what is done is kept; the
/// second ends the run.
class Stoppable {
public:
    Stoppable();
    ~Stoppable();
    Stoppable(const Stoppable&) = delete;
    Stoppable& operator=(const Stoppable&) = delete;
};

/// Has a signal come?
bool stop_asked();

/// Exit status after a signal, 128 and its number: 130 after Ctrl-C. `status` if none came.
int status_after(int status);

}  // namespace foretone::cli
