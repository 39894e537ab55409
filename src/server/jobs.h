// Long work under a name that its asker gave: how far it is, and how to stop it. For the server
// room alone.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>

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

}  // namespace spadework::server
