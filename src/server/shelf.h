// The shelf: the gardens of a folder, each opened once when it is first asked for, and the
// examples. For the server room alone.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "server/jobs.h"
#include "server/open_garden.h"

namespace spadework::server {

class Shelf {
 public:
  /// The workshop must outlive it.
  Shelf(std::string folder, const Workshop& workshop);

  /// `folder`, `gardens[]{id, title, changed, read_only, error}`, `examples[]{id, title}`.
  [[nodiscard]] Result<Json> list();
  /// Errors: kUnknownId for a garden that is not there; those of opening it.
  [[nodiscard]] Result<std::shared_ptr<OpenGarden>> garden(const std::string& id);
  /// A new garden with this document. Out: its id.
  /// Errors: kCannotWrite; the document's first problem, all of them in `problems`.
  [[nodiscard]] Result<std::string> add(const std::string& text, std::vector<Error>& problems);
  /// The user's own copy of an example: made when it is not there yet, or afresh beside it. Out:
  /// its id.
  [[nodiscard]] Result<std::string> look_into(const std::string& example, bool afresh = false);
  /// Off the shelf: the file is renamed and can be put back. Out: the name that it has then.
  [[nodiscard]] Result<std::string> take_off(const std::string& id);
  [[nodiscard]] Result<bool> put_back(const std::string& id);
  [[nodiscard]] Jobs& jobs() { return jobs_; }
  [[nodiscard]] Turns& turns() { return turns_; }
  /// Closes all, for the end.
  void close();

 private:
  [[nodiscard]] std::string path_of(const std::string& id) const;
  [[nodiscard]] Result<std::string> add_as(const std::string& path, const std::string& text,
                                           std::vector<Error>& problems);

  std::string folder_;
  const Workshop& workshop_;
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<OpenGarden>> open_;
  Jobs jobs_;
  static constexpr int kLongAtOnce = 4;
  Turns turns_{kLongAtOnce};
};

/// Whether a garden's id is one: a file's name without folders and its ending.
[[nodiscard]] bool is_garden_id(const std::string& id);

}  // namespace spadework::server
