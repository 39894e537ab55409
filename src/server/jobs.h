// Long work under a name that its asker gave: how far it is, and how to stop it. For the server
// room alone.
#pragma once

#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>

#include "base/progress.h"

namespace spadework::server {

class Jobs {
 public:
  /// A work that is under way as long as this lives.
  class Work {
   public:
    Work(Jobs& jobs, std::string name);
    ~Work();
    Work(const Work&) = delete;
    Work& operator=(const Work&) = delete;
    [[nodiscard]] Progress* progress() const { return progress_.get(); }

   private:
    Jobs& jobs_;
    std::string name_;  // empty: nobody asks for it
    std::shared_ptr<Progress> progress_ = std::make_shared<Progress>();
  };

  /// Nothing when no such work is under way.
  [[nodiscard]] std::shared_ptr<Progress> find(const std::string& name);

 private:
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Progress>> running_;
};

/// So many long works at once; the others wait, and not for those who are gone.
class Turns {
 public:
  explicit Turns(int at_once) : free_(at_once) {}

  class Turn {
   public:
    explicit Turn(Turns& turns) : turns_(&turns) {}
    ~Turn();
    Turn(Turn&& other) noexcept : turns_(std::exchange(other.turns_, nullptr)) {}
    Turn& operator=(Turn&&) = delete;

   private:
    Turns* turns_;  // nothing: it was handed on
  };

  /// Waits for a turn; nothing when `is_gone` says so before one comes.
  [[nodiscard]] std::optional<Turn> wait(const std::function<bool()>& is_gone);

 private:
  std::mutex mutex_;
  std::condition_variable given_back_;
  int free_;
};

}  // namespace spadework::server
