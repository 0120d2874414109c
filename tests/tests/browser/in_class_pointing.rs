//! In class: members are pointed at, lit and named.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Device, Key, Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::in_class::{SHOWN, begin, drawings, text};

/// Catches a member that goes dark once the pointer is moved away, and one that cannot be let go by hand or key.
#[test]
fn a_click_keeps_a_member_lit() -> Result<()> {
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        page.run(WATCH_NODES, Value::Null)?;
        begin(page)?;
        let dark = drawings(page)?;
        let place: (f64, f64) = page.get(NODE, json!("S"))?;
        let lit = |how: &str, expected: bool| -> Result<()> {
            let now = drawings(page)?;
            ensure!((now != dark) == expected, "lit: {} {how}", !expected);
            Ok(())
        };
        page.gesture(Device::Mouse, &[place])?;
        page.point_away()?;
        lit("after a click", true)?;
        page.gesture(Device::Mouse, &[place])?;
        page.point_away()?;
        lit("after another", false)?;
        page.gesture(Device::Mouse, &[place])?;
        page.point_away()?;
        page.keys([Key::Escape])?;
        lit("after Escape", false)?;
        ensure!(page.get::<bool>(SHOWN, Value::Null)?, "Escape ends it");
        page.keys([Key::Down, Key::Enter])?;
        page.point_at(place)?;
        page.point_away()?;
        lit("by Enter", true)?;
        page.keys([Key::Enter])?;
        lit("by Enter again", false)?;
        page.keys([Key::Escape])?;
        page.until("it has ended", "!probe.one('[data-part=class]')")
    })
}

/// The middle of the first node of the levers that is told by its letter.
const NODE: &str = "(() => { \
    const canvas = probe.one('[data-class-drawing=lever]'); \
    const { left, top } = canvas.getBoundingClientRect(); \
    const [, , x, y] = nodes.find(([name]) => name === args); \
    const scale = canvas.offsetWidth / canvas.width; \
    return [left + x * scale, top + y * scale]; \
})()";
const WATCH_NODES: &str = "window.nodes = []; \
    const write = CanvasRenderingContext2D.prototype.fillText; \
    CanvasRenderingContext2D.prototype.fillText = function (text, x, y, ...rest) { \
        if (this.canvas.dataset.classDrawing === 'lever') nodes.push([text, 0, x, y]); \
        return write.call(this, text, x, y, ...rest); \
    }";

/// Catches a member that lights in one drawing only or is not named, by mouse, finger or keys.
#[test]
fn pointing_at_a_member_lights_it_in_both_and_names_it() -> Result<()> {
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        page.run(WATCH_NODES, Value::Null)?;
        begin(page)?;
        let dark = drawings(page)?;
        let lit = |page: &Page, how: &str| -> Result<()> {
            let now = drawings(page)?;
            ensure!(now[0] != dark[0], "nothing in the half-section by {how}");
            ensure!(now[1] != dark[1], "nothing in the levers by {how}");
            let line = text(page, "class-line")?;
            ensure!(line.starts_with("Sun 1"), "{line} by {how}");
            Ok(())
        };
        let place: (f64, f64) = page.get(NODE, json!("S"))?;
        page.point_at(place)?;
        lit(page, "mouse")?;
        page.point_away()?;
        ensure!(drawings(page)? == dark, "it stays lit");
        page.gesture(Device::Touch, &[place])?;
        lit(page, "finger")?;
        // By keys from one member to the next, and after the last to none.
        let train = by_hand::train()?;
        let shafts = &train.scenario().shafts;
        let first = shafts.iter().position(|shaft| shaft.label == "Sun 1");
        for shaft in &shafts[first.map_or(0, |at| at + 1)..] {
            page.keys([Key::Down])?;
            let line = text(page, "class-line")?;
            ensure!(line.starts_with(&shaft.label), "{line}");
        }
        page.keys([Key::Down])?;
        ensure!(drawings(page)? == dark, "it stays lit after the last");
        for shaft in shafts {
            page.keys([Key::Down])?;
            let line = text(page, "class-line")?;
            ensure!(line.starts_with(&shaft.label), "{line}");
            if shaft.label == "Sun 1" {
                lit(page, "key")?;
                page.until(
                    "it is told",
                    "probe.text('[data-part=class-status]').startsWith('Sun 1')",
                )?;
            }
        }
        Ok(())
    })
}
