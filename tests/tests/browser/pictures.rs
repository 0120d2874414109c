//! The drawings as pixels. What they should look like is for people: see the kept pictures.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Canvas, Page, View, page};
use serde_json::Value;

use crate::by_hand::{self, FIRST, SECOND};
use crate::in_class;

const DRAWINGS: [&str; 3] = ["section", "lever", "end"];
const OPEN_END_VIEW: &str = "probe.one('[data-part=end-view]').open = true";

/// Catches drawings that are blank, of one line, or filled with one colour.
fn check_drawn(drawing: &str, canvas: &Canvas) -> Result<()> {
    ensure!(
        canvas.colours > 20,
        "{drawing} has {} colours",
        canvas.colours
    );
    ensure!(
        canvas.ground < 0.99,
        "{drawing} is almost empty: {canvas:?}"
    );
    ensure!(canvas.ground > 0.2, "{drawing} has no ground: {canvas:?}");
    Ok(())
}

/// Catches canvases that keep an earlier drawing when the train, the elements or the colours
/// change.
#[test]
fn the_drawings_are_there_and_change_with_what_they_show() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.run(OPEN_END_VIEW, Value::Null)?;
        for drawing in DRAWINGS {
            check_drawn(drawing, &page.canvas(drawing)?)?;
        }
        let first = page.seen()?;
        page.click_range(SECOND.id)?;
        let second = page.seen()?;
        ensure!(first.section != second.section, "the half-section stays");
        ensure!(first.lever != second.lever, "the lever diagram stays");
        page.click_range(FIRST.id)?;
        ensure!(
            page.seen()? == first,
            "first gear looks different the second time"
        );

        let end = page.canvas("end")?;
        page.choose("01-one-set")?;
        let other = page.seen()?;
        ensure!(other.section != first.section && other.lever != first.lever);
        ensure!(page.canvas("end")?.hash != end.hash, "the end view stays");
        Ok(())
    })
}

/// Catches drawings that are stretched: fewer pixels than the screen has, or other proportions.
#[test]
fn the_drawings_are_as_fine_as_the_screen() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        for density in [1.0, 2.0, 3.0] {
            page.change_view(View::LAPTOP.density(density))?;
            page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
            page.run(OPEN_END_VIEW, Value::Null)?;
            for drawing in DRAWINGS {
                let Canvas { size, on_page, .. } = page.canvas(drawing)?;
                let fineness = (size.0 / on_page.0, size.1 / on_page.1);
                let shown = format!("{drawing} at {density}: {size:?} on {on_page:?}");
                ensure!(fineness.0 >= density - 0.01, "{shown}");
                ensure!((fineness.0 - fineness.1).abs() < 0.01, "{shown}");
            }
        }
        // Moved to another screen, or zoomed, the page that is open follows.
        for density in [1.0, 2.5] {
            page.change_view(View::LAPTOP.density(density))?;
            for drawing in DRAWINGS {
                let Canvas { size, on_page, .. } = page.canvas(drawing)?;
                let fineness = size.0 / on_page.0;
                ensure!(
                    (density - 0.01..=2.0 * density + 0.01).contains(&fineness),
                    "{drawing} from another screen at {density}: {fineness}"
                );
            }
        }
        Ok(())
    })
}

/// Catches rings with corners: coordinates are whole pixels of a canvas, and in class all is large.
#[test]
fn in_class_drawings_are_finer_than_a_coarse_screen() -> Result<()> {
    page::open(View::LAPTOP.density(1.0), "", |page| {
        in_class::begin(page)?;
        let fineness: Vec<f64> = page.get(
            "probe.all('[data-class-drawing]').map((node) => node.width / node.offsetWidth)",
            Value::Null,
        )?;
        ensure!(
            fineness.len() == 2 && fineness.iter().all(|&fineness| fineness > 1.5),
            "{fineness:?}"
        );
        Ok(())
    })
}

/// Catches drawings that stay light on a dark page, at the start and when the system changes while
/// the page is open.
#[test]
fn dark_colours_reach_the_drawings() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.run(OPEN_END_VIEW, Value::Null)?;
        let light: Result<Vec<Canvas>> = DRAWINGS
            .iter()
            .map(|drawing| page.canvas(drawing))
            .collect();
        let light = light?;
        page.change_view(View::LAPTOP.dark())?;
        for (drawing, light) in DRAWINGS.iter().zip(&light) {
            let dark = page.canvas(drawing)?;
            check_drawn(drawing, &dark)?;
            ensure!(dark.hash != light.hash, "{drawing} stays light");
            ensure!(
                dark.lightness < light.lightness,
                "{drawing}: {} dark, {} light",
                dark.lightness,
                light.lightness
            );
        }
        let changed = page.seen()?;
        page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
        let fresh = page.seen()?;
        ensure!(
            fresh.section == changed.section,
            "a fresh page has other colours"
        );

        page.click("[data-theme-choice=light]")?;
        ensure!(
            page.canvas("section")?.hash == light[0].hash,
            "the user's choice is not kept to"
        );
        Ok(())
    })
}

/// Catches drawings that are a white sheet on a page that the system makes black, or the reverse.
#[test]
fn colours_that_the_system_forces_reach_the_drawings() -> Result<()> {
    page::open(View::LAPTOP.forced(), &by_hand::link(FIRST), |page| {
        page.run(OPEN_END_VIEW, Value::Null)?;
        for drawing in DRAWINGS {
            page.change_view(View::LAPTOP.forced())?;
            let light = page.canvas(drawing)?;
            page.change_view(View::LAPTOP.forced().dark())?;
            let dark = page.canvas(drawing)?;
            check_drawn(drawing, &light)?;
            check_drawn(drawing, &dark)?;
            let lightness = [light.lightness, dark.lightness];
            ensure!(
                lightness[0] > 0.75 && lightness[1] < 0.25,
                "{drawing}: {lightness:?}"
            );
        }
        let border = "getComputedStyle(probe.one('[role=switch]')).borderTopColor";
        let border: String = page.get(border, Value::Null)?;
        ensure!(
            border == "rgba(0, 0, 0, 0)",
            "switches are framed over the drawing: {border}"
        );
        Ok(())
    })
}

/// Catches a stage whose two drawings drift apart: a lever must stand under its set.
#[test]
fn both_drawings_of_the_stage_keep_one_width_when_it_changes() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let before = page.canvas("section")?.on_page.0;
        for width in [1280, 900, 1600, 390] {
            page.change_view(View {
                width,
                ..View::LAPTOP
            })?;
            let [section, lever] = [page.canvas("section")?, page.canvas("lever")?];
            check_drawn("section", &section)?;
            check_drawn("lever", &lever)?;
            let edges = "['section', 'lever'].map((name) => \
                probe.one(`canvas[data-drawing=${name}]`).getBoundingClientRect().left)";
            let edges: [f64; 2] = page.get(edges, Value::Null)?;
            ensure!(
                section.on_page.0 == lever.on_page.0,
                "at {width}: {section:?} {lever:?}"
            );
            ensure!(edges[0] == edges[1], "at {width}: {edges:?}");
        }
        page.change_view(View {
            width: 1600,
            ..View::LAPTOP
        })?;
        ensure!(
            page.canvas("section")?.on_page.0 > before,
            "more width is not used"
        );
        Ok(())
    })
}

/// Catches drawings in panels that are not painted anew when something else is applied or the
/// colours change, and such as hold their panel open when the page narrows.
#[test]
fn drawings_in_panels_follow_answer_colours_and_width() -> Result<()> {
    const IN_PANELS: [&str; 3] = ["flow", "operating", "end"];
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let open = "for (const part of ['flow', 'operating', 'end-view']) \
            probe.one(`[data-part=${part}]`).open = true";
        page.run(open, Value::Null)?;
        let all = |page: &Page| -> Result<Vec<Canvas>> {
            IN_PANELS.iter().map(|name| page.canvas(name)).collect()
        };
        let first = all(page)?;
        page.click_range(SECOND.id)?;
        let second = all(page)?;
        page.change_view(View::LAPTOP.dark())?;
        let dark = all(page)?;
        for (at, drawing) in IN_PANELS.iter().enumerate() {
            ensure!(first[at].hash != second[at].hash, "{drawing} stays");
            let [light, dark] = [&second[at], &dark[at]].map(|canvas| canvas.lightness);
            ensure!(dark < light, "{drawing}: {dark} dark, {light} light");
        }
        for width in [1100, 700, 390] {
            page.change_view(View {
                width,
                ..View::LAPTOP
            })?;
            let room: f64 = page.get("probe.one('.below').clientWidth", Value::Null)?;
            for (drawing, canvas) in IN_PANELS.iter().zip(all(page)?) {
                ensure!(
                    canvas.on_page.0 <= room,
                    "at {width}: {drawing} {canvas:?} in {room}"
                );
            }
        }
        Ok(())
    })
}

/// Not a check: pictures of every scenario for people to look at.
#[test]
fn pictures_are_kept() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        for file in levertrain_tests::files::scenarios()? {
            page.goto(&format!("index.html#s={}", file.stem))?;
            page.keep_shot(&format!("{}-laptop", file.stem))?;
        }
        page.change_view(View::LAPTOP.dark())?;
        page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
        page.keep_shot("dark")?;
        for (name, view) in [("phone", View::PHONE), ("phone-dark", View::PHONE.dark())] {
            page.change_view(view)?;
            page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
            page.keep_shot(name)?;
        }
        Ok(())
    })
}
