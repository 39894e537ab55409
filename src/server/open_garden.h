// One garden that is open: its file, its document as it is now, and what was computed of it. Any
// number of windows may ask at once. For the server room alone.
#pragma once

#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "base/check.h"
#include "base/progress.h"
#include "document/document.h"
#include "document/source.h"
#include "server/answers.h"
#include "server/told.h"
#include "server/workshop.h"
#include "store/store.h"

namespace spadework::server {

class OpenGarden {
 public:
  /// Errors: those of the store; what is wrong with the document inside. A weather file that is
  /// missing or damaged is none.
  [[nodiscard]] static Result<std::shared_ptr<OpenGarden>> open(const std::string& path,
                                                                const Workshop& workshop);

  /// Waits until the garden is other than `change`, or the time is over; then the head's.
  [[nodiscard]] std::int64_t wait_for_change(std::int64_t change, int most_ms);
  /// Closes the file and wakes all who wait.
  void close();

  [[nodiscard]] const std::string& path() const { return path_; }

  /// The garden at one moment: what is asked of it later has the same answers.
  struct Now {
    store::Head head;
    bool read_only = false;
    document::Source source;
    study::Study study;
    /// Why the weather file that the document names is not used, if so.
    std::optional<Error> weather_problem;
  };

  /// The garden as it is now. Until it is let go it is this asker's alone: nobody else changes it.
  class Held {
   public:
    Held(std::unique_lock<std::mutex> lock, OpenGarden& garden)
        : lock_(std::move(lock)), garden_(garden), now_(garden.now_) {}
    [[nodiscard]] const store::Head& head() const { return now_->head; }
    [[nodiscard]] bool read_only() const { return now_->read_only; }
    [[nodiscard]] const std::string& text() const { return now_->source.text(); }
    [[nodiscard]] const document::Source& source() const { return now_->source; }
    [[nodiscard]] const garden::Draft& draft() const { return now_->study.draft(); }
    [[nodiscard]] study::Study& study() { return now_->study; }
    [[nodiscard]] const Workshop& workshop() const { return garden_.workshop_; }
    [[nodiscard]] Told& told() const { return garden_.told_; }
    [[nodiscard]] const std::optional<Error>& weather_problem() const {
      return now_->weather_problem;
    }

    /// Light that is tried on the garden as it is: the work is stopped when an edit comes. Not once
    /// it is let go.
    [[nodiscard]] std::shared_ptr<Progress> begin_trial();
    void end_trials();

    /// From here on it is only asked what it was: others need not wait for long work.
    void let_go() { lock_.unlock(); }
    /// Not once it is let go.
    [[nodiscard]] store::GardenFile& file() {
      SW_CHECK(lock_.owns_lock());
      return *garden_.file_;
    }

    /// A document of this garden with edits, read: problems are errors. Nothing is kept.
    struct Edited {
      document::Source source;
      garden::Draft draft;
      std::vector<Error> problems;
    };
    [[nodiscard]] Result<Edited> edited(const document::Source& before,
                                        const std::vector<document::Edit>& edits) const;
    /// Takes a head that the store gave. `written`: what it was given, which need not be read anew
    /// where it is what the garden has now.
    [[nodiscard]] Result<bool> take(const Result<store::Head>& head, Edited* written = nullptr);

   private:
    std::unique_lock<std::mutex> lock_;
    OpenGarden& garden_;
    std::shared_ptr<Now> now_;
  };
  /// Errors: kUnknownId for one that was closed; those of the disk, when another program has
  /// changed the file.
  [[nodiscard]] Result<Held> hold();

 private:
  OpenGarden(std::string path, store::GardenFile file, const Workshop& workshop);
  [[nodiscard]] Result<bool> load(Held::Edited* written = nullptr);
  [[nodiscard]] Result<Held::Edited> document_now(Held::Edited* written);
  void take_weather(Now& now);

  std::string path_;
  std::optional<store::GardenFile> file_;  // nothing: closed
  const Workshop& workshop_;
  std::shared_ptr<Now> now_;
  Told told_;
  std::vector<std::weak_ptr<Progress>> trials_;
  std::string weather_key_;  // of the file that the study has, and of where the garden lies
  std::mutex mutex_;
  std::mutex waiting_;  // guards seen_
  std::condition_variable changed_;
  std::int64_t seen_ = 0;
  bool over_ = false;
};

}  // namespace spadework::server
