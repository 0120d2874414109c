//! Seeing a part of the drawings from nearer, and the list of keys.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Device, Key, Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, THIRD};

/// How many times as large as it is drawn, how far it is scrolled, and the height of its place.
const SIZE: &str = "(() => { const stage = probe.one('[data-part=stage]'); \
    return [Number(stage.dataset.zoom), stage.scrollLeft, stage.scrollTop, stage.clientHeight]; })()";

fn size(page: &Page) -> Result<[f64; 4]> {
    page.rest()?;
    page.get(SIZE, Value::Null)
}

/// Catches a key that does nothing or leaves the drawings where they are large, a place that grows with
/// them, and packs that cannot be dragged from near.
#[test]
fn keys_bring_the_drawings_nearer() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(THIRD), |page| {
        let usual = size(page)?;
        page.run("probe.one('.handle[tabindex=\"0\"]').focus()", Value::Null)?;
        for _ in 0..3 {
            page.keys(['+'])?;
        }
        let near = size(page)?;
        ensure!(
            (near[0] / usual[0] - 1.25_f64.powi(3)).abs() < 1e-6,
            "{usual:?}, {near:?}"
        );
        ensure!(
            (near[3] - usual[3]).abs() < 20.0,
            "the place grows: {usual:?}, {near:?}"
        );
        ensure!(near[1] > 0.0, "the middle does not stay: {near:?}");
        // A canvas has the pixels for it: it is drawn anew, not blown up.
        let pixels: [f64; 2] = page.get(
            "(() => { const node = probe.one('canvas[data-drawing=section]'); \
                return [node.width, node.getBoundingClientRect().width * devicePixelRatio]; })()",
            Value::Null,
        )?;
        ensure!(pixels[0] >= 0.99 * pixels[1], "{pixels:?}");

        let pack = page.pack(&by_hand::train()?, "V")?;
        page.drag(Device::Mouse, &pack, -0.9)?;
        ensure!(
            !page.seen()?.applied.contains(&"V".to_owned()),
            "dragged open"
        );

        page.run("probe.one('.handle[tabindex=\"0\"]').focus()", Value::Null)?;
        page.keys(['-', '-', '-', '-'])?;
        let back = size(page)?;
        ensure!(
            back[0] == usual[0] && back[1] == 0.0 && back[2] == 0.0,
            "{back:?}"
        );
        Ok(())
    })
}

/// Catches buttons that are not there for a train wider than a phone, or that zoom without an end.
#[test]
fn buttons_bring_them_nearer_on_a_phone() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(FIRST), |page| {
        let larger = "[data-part=size] button:last-child";
        let usual = size(page)?;
        let mut presses = 0;
        while !page.get::<bool>("probe.one(args).disabled", json!(larger))? {
            page.click(larger)?;
            presses += 1;
            ensure!(presses < 20, "without an end");
        }
        let near = size(page)?;
        ensure!(
            (near[0] / usual[0] - 4.0).abs() < 1e-6,
            "{usual:?}, {near:?}"
        );
        let wide: [f64; 2] = page.get(
            "[document.documentElement.scrollWidth, innerWidth]",
            Value::Null,
        )?;
        ensure!(wide[0] <= wide[1], "the page scrolls: {wide:?}");
        Ok(())
    })
}

/// Catches a wheel that is taken from the page, or a point that slips away under it.
#[test]
fn a_wheel_with_control_brings_nearer_what_is_under_it() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let turn = "(() => { const stage = probe.one('[data-part=stage]'); \
            const box = stage.getBoundingClientRect(); \
            const event = new WheelEvent('wheel', { deltaY: -400, ctrlKey: args, bubbles: true, cancelable: true, \
                clientX: box.x + 300, clientY: box.y + 100 }); \
            const zoom = Number(stage.dataset.zoom); \
            const before = (stage.scrollLeft + 300) / zoom; \
            stage.dispatchEvent(event); \
            const after = (stage.scrollLeft + 300) / Number(stage.dataset.zoom); \
            return [event.defaultPrevented ? 1 : 0, Number(stage.dataset.zoom) / zoom, after - before]; \
        })()";
        let plain: [f64; 3] = page.get(turn, json!(false))?;
        ensure!(plain == [0.0, 1.0, 0.0], "{plain:?}");
        let held: [f64; 3] = page.get(turn, json!(true))?;
        ensure!(
            held[0] == 1.0 && held[1] > 2.0 && held[2].abs() < 1.5,
            "{held:?}"
        );
        Ok(())
    })
}

/// Catches a list that does not open, keeps the focus, or opens while somebody types a question.
#[test]
fn a_question_mark_lists_the_keys() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let open = "probe.one('[data-part=keys]').open";
        page.run("probe.one('.range-buttons button').focus()", Value::Null)?;
        page.keys(['?'])?;
        ensure!(page.get::<bool>(open, Value::Null)?, "it does not open");
        page.until(
            "it is filled",
            "probe.all('[data-part=keys] kbd').length > 10",
        )?;
        page.keys([Key::Escape])?;
        ensure!(!page.get::<bool>(open, Value::Null)?, "it stays open");
        let back =
            "probe.host('lever-train').shadowRoot.activeElement.closest('.range-buttons') !== null";
        ensure!(page.get::<bool>(back, Value::Null)?, "the focus is lost");

        page.unfold("edit")?;
        page.until(
            "there is a name",
            "probe.all('[data-key=name]').length === 1",
        )?;
        page.run(
            "(() => { const name = probe.one('[data-key=name]'); name.focus(); name.select(); })()",
            Value::Null,
        )?;
        page.keys(['?'])?;
        ensure!(
            !page.get::<bool>(open, Value::Null)?,
            "it opens while one types"
        );
        let name: String = page.get("probe.one('[data-key=name]').value", Value::Null)?;
        ensure!(name == "?", "{name}");
        Ok(())
    })
}
