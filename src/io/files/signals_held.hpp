#pragma once
// Signals kept waiting for a moment (POSIX).
#include <pthread.h>

#include <csignal>
#include <ctime>
#include <initializer_list>

namespace samelight::io::detail {

/// Keeps some signals from the calling thread while it lives; they arrive when it ends.
///
/// A library has no business with its host's handlers, which belong to the whole process; a thread's mask is its own, and is put
/// back. Another thread of the process may take a signal meanwhile, as its owner pleases.
class SignalsHeld {
  public:
    /// @param later   arrive when this ends
    /// @param dropped are what write() raises beside failing; the failure is told, so these never arrive
    SignalsHeld(std::initializer_list<int> later, std::initializer_list<int> dropped) {
        ::sigemptyset(&dropped_);
        sigset_t pending;
        ::sigpending(&pending);
        for (const int signal : dropped) {
            // One that waited already is somebody else's.
            if (::sigismember(&pending, signal) == 0) ::sigaddset(&dropped_, signal);
        }
        sigset_t held = dropped_;
        for (const int signal : later) {
            ::sigaddset(&held, signal);
        }
        ::pthread_sigmask(SIG_BLOCK, &held, &before_);
    }

    SignalsHeld(const SignalsHeld&) = delete;
    SignalsHeld& operator=(const SignalsHeld&) = delete;
    SignalsHeld(SignalsHeld&&) = delete;
    SignalsHeld& operator=(SignalsHeld&&) = delete;

    ~SignalsHeld() {
        const timespec at_once{};
        while (::sigtimedwait(&dropped_, nullptr, &at_once) > 0) {
        }
        ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
    }

  private:
    sigset_t dropped_{};
    sigset_t before_{};
};

}  // namespace samelight::io::detail
