//! Writes a drawing of a gear train as an SVG file.
//!
//! `cargo run -p levertrain-web --example draw -- FILE OUT.svg [section|lever|flow|operating|end:ID]
//! [--apply ID,ID…] [--width CSS-PIXELS] [--dark] [--merged] [--power]`
#![allow(clippy::print_stdout, reason = "printing is what this example is for")]

use std::process::ExitCode;

use levertrain_web::draw::{Palette, end_view, flow, lever, operating, svg};
use levertrain_web::session::Session;

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
    let (mut apply, mut width, mut palette) = (None, 860.0, Palette::Light);
    let (mut merged, mut power) = (false, false);
    let mut arguments = std::env::args().skip(1);
    while let Some(argument) = arguments.next() {
        let mut value = || arguments.next().ok_or(format!("{argument} needs a value"));
        match argument.as_str() {
            "--apply" => apply = Some(value()?),
            "--width" => {
                width = value()?
                    .parse()
                    .map_err(|_| "--width needs a number".to_owned())?;
            }
            "--dark" => palette = Palette::Dark,
            "--merged" => merged = true,
            "--power" => power = true,
            _ => plain.push(argument),
        }
    }
    let [file, out, rest @ ..] = plain.as_slice() else {
        return Err("usage: draw FILE OUT.svg [section|lever|flow|operating|end:ID]".to_owned());
    };
    let drawing = rest.first().map_or("section", String::as_str);
    let text = std::fs::read_to_string(file).map_err(|error| format!("{file}: {error}"))?;
    let mut session = Session::open(&text).map_err(|problems| format!("{file}: {problems:?}"))?;
    if let Some(ids) = apply {
        let ids = ids.split(',').filter(|id| !id.is_empty());
        let applied = session
            .train()
            .element_set(ids)
            .map_err(|problems| format!("{problems:?}"))?;
        session.apply(applied);
        session.settle();
    }
    session.set_show_power(power);
    let live = session.live();
    let stage = session.layout().stage(width);
    let scene = match drawing {
        "section" => stage.scene(&live),
        "lever" => lever::scene(&live, &stage, merged),
        "flow" => flow::scene(&live, (width, flow::height(&live, width))),
        "operating" => {
            let size = (width, width / 2.0);
            let (conditions, units) = (session.conditions(), session.units());
            operating::scene(&session.combination(), conditions, units, size)
        }
        other => {
            let couplings = &session.train().scenario().couplings;
            let id = other.strip_prefix("end:").unwrap_or(other);
            let coupling = couplings
                .iter()
                .position(|coupling| coupling.facts().id() == id);
            let coupling = coupling.ok_or(format!("no drawing or coupling is called {other}"))?;
            end_view::scene(&live, coupling, (width, width))
        }
    };
    std::fs::write(out, svg(&scene, palette)?).map_err(|error| format!("{out}: {error}"))?;
    Ok(format!(
        "{out}: shafts cross {} times",
        session.layout().crossings()
    ))
}
