#pragma once
// What is seen on a terminal while an answer is awaited.

namespace samelight::command {

/// From one second on, shows in one line of standard error how long it has taken, where that is a terminal: each second anew, and gone before
/// anything else is said. Elsewhere nothing, so that what is kept of standard error holds errors alone. One at a time.
class Progress {
  public:
    Progress();
    ~Progress();
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;

    /// No more of it, once an answer is on its way.
    static void stop();
    /// Takes the line away for what is said on standard error now.
    static void make_room();
};

}  // namespace samelight::command
