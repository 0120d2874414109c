//! Writes a drawing of a gear train as an SVG file.
//!
//! `cargo run -p levertrain-web --example draw -- FILE OUT.svg [section|lever|flow|operating|end:ID]
//! [--apply ID,ID…] [--width CSS-PIXELS] [--dark] [--merged]
//! [--power] [--one-module]`
#![allow(clippy::print_stdout, reason = "printing is what this example is for")]

#[path = "../../core/examples/chart/input.rs"]
mod input;

use std::process::ExitCode;

use levertrain_core::Problem;
use levertrain_core::scenario::limits::FILE_BYTES;
use levertrain_core::words::{counted, said, word};
use levertrain_web::draw::section::draw_nested;
use levertrain_web::draw::{Palette, flow, svg};
use levertrain_web::session::Session;
use levertrain_web::settings::Settings;
use levertrain_web::{Mended, pictures};

fn main() -> ExitCode {
    match run() {
        Ok(message) => {
            println!("{message}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("draw: {message}");
            ExitCode::from(2)
        }
    }
}

fn run() -> Result<String, String> {
    let mut plain = Vec::new();
    let mut apply = None;
    let mut settings = Settings {
        width: 860.0,
        ..Settings::default()
    };
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let mut value = || {
            arguments
                .next()
                .ok_or_else(|| said("cli-needs-value", &[("option", &argument)]))
        };
        match argument.as_str() {
            "--apply" => apply = Some(value()?),
            "--width" => {
                settings.width = value()?
                    .parse()
                    .map_err(|_| said("cli-needs-number", &[("option", &argument)]))?;
            }
            "--dark" => settings.palette = Palette::Dark,
            "--merged" => settings.merged = true,
            "--power" => settings.power = true,
            "--one-module" => settings.one_module = true,
            _ => plain.push(argument),
        }
    }
    let [file, out, rest @ ..] = plain.as_slice() else {
        return Err(word("cli-draw-usage").to_owned());
    };
    let drawing = rest.first().map_or("section", String::as_str);
    let text = input::read(file, FILE_BYTES).map_err(|error| format!("{file}: {error}"))?;
    draw_nested();
    let mut session =
        Session::open(&text).map_err(|problems| format!("{file}: {}", listed(&problems)))?;
    while matches!(session.mend(1), Mended::Begun) {}
    if let Some(ids) = apply {
        let ids = ids.split(',').filter(|id| !id.is_empty());
        let applied = session
            .train()
            .element_set(ids)
            .map_err(|problems| listed(&problems))?;
        session.apply(applied);
        session.settle();
    }
    let Settings { width, palette, .. } = settings;
    session.set(settings);
    let height = match drawing {
        "flow" => flow::height(&session.live(), width),
        "operating" => width / 2.0,
        _ => width,
    };
    let scene = pictures::scene(&session, drawing, (width, height))
        .map_err(|problem| problem.to_string())?;
    std::fs::write(out, svg(&scene, palette)?).map_err(|error| format!("{out}: {error}"))?;
    let crossings = counted("cli-draw-crossings", session.layout().crossings());
    Ok(format!("{out}: {crossings}"))
}

/// All problems, a line each.
fn listed(problems: &[Problem]) -> String {
    let lines: Vec<String> = problems.iter().map(Problem::on_a_terminal).collect();
    lines.join("\n")
}
