#include "cli/cli.h"

int main(int argc, char** argv) { return spadework::cli::run(argc, argv); }
