// Front door of the command's room: `spadework VERB GARDEN [options]`.
#pragma once

namespace spadework::cli {

/// Runs the command. Text goes to standard output, what went wrong to standard error.
/// Out: the exit status: 0 fine, 1 the document has errors, 2 wrong use, 3 could not read or write,
///      4 no answer exists.
[[nodiscard]] int run(int argc, char** argv);

}  // namespace spadework::cli
