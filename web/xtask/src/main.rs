//! `cargo xtask`: see [`xtask::command_line::HELP`].

use std::process::ExitCode;

use xtask::command_line::{self, Task};

fn main() -> ExitCode {
    match command_line::parse(std::env::args_os().skip(1)).and_then(run) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("error: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(task: Task) -> anyhow::Result<()> {
    match task {
        Task::Help => command_line::print_help(),
        Task::Dist { out } => xtask::dist::run(out.as_deref())?,
        Task::Serve { port, open } => xtask::serve::run(port, open)?,
        Task::Test { quick } => xtask::test::run(quick)?,
        Task::Bench { arguments } => xtask::bench::run(&arguments)?,
    }
    Ok(())
}
