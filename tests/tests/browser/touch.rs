//! A phone: 390 pixels wide, with fingers.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Device, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::by_core;
use crate::by_hand::{self, FIRST, THIRD};

/// Opens everything that folds, so that all of the page is looked at.
const UNFOLD: &str = "for (const node of probe.all('details')) node.open = true; \
     probe.one('[data-part=cautions-button]').click();";

/// Catches a finger that scrolls the page instead of dragging, and a way that is measured in
/// device pixels. From third gear with A released, dragging B closed gives first.
#[test]
fn a_finger_drags_a_brake_closed() -> Result<()> {
    let link = format!("#s={}&on=J&n=1000", by_hand::STEM);
    page::open(View::PHONE, &link, |page| {
        let train = by_hand::train()?;
        let before = page.seen()?;
        ensure!(before.state.as_deref() == Some("Neutral"), "{before:?}");
        let pack = page.pack(&train, "W")?;
        let scrolled = "[scrollY, probe.one('[data-part=stage]').scrollLeft]";
        let place: [f64; 2] = page.get(scrolled, Value::Null)?;
        page.drag(Device::Touch, &pack, 0.9)?;
        let after = page.seen()?;
        ensure!(after.applied == FIRST.applied, "{after:?}");
        ensure!(after.ratio.as_deref() == Some(FIRST.ratio), "{after:?}");
        ensure!(after.section != before.section && after.lever != before.lever);
        let place_after: [f64; 2] = page.get(scrolled, Value::Null)?;
        ensure!(
            place == place_after,
            "the drag has scrolled from {place:?} to {place_after:?}"
        );
        Ok(())
    })
}

/// Catches a tap that does nothing because a finger always moves a little.
#[test]
fn a_tap_changes_a_switch_over() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(THIRD), |page| {
        let pack = page.pack(&by_hand::train()?, "V")?;
        let (x, y) = pack.centre;
        page.gesture(Device::Touch, &[(x, y), (x + 2.0, y + 1.0)])?;
        ensure!(page.seen()?.applied == ["J"], "the tap does nothing");
        Ok(())
    })
}

/// Catches a table, a long word or a fixed width that makes the whole page scroll sideways. Only
/// the stage may be wider than the screen, inside its own scroller, and the lines of a file in theirs.
#[test]
fn nothing_but_the_stage_is_wider_than_the_screen() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(FIRST), |page| {
        page.run(UNFOLD, Value::Null)?;
        page.rest()?;
        let wide = "[document.documentElement.scrollWidth, innerWidth]";
        let [content, screen]: [f64; 2] = page.get(wide, Value::Null)?;
        ensure!(screen == 390.0, "the screen is {screen} wide");
        ensure!(content <= screen, "the page is {content} wide");

        // Levers that are turned by hand are those of the stage, and no narrower.
        let beyond = "probe.all('.levertrain *') \
            .filter((node) => !node.closest('[data-part=stage], [data-part=driven], .unseen, .cm-content')) \
            .filter((node) => { \
                const { right, left, width } = node.getBoundingClientRect(); \
                return width > 0 && (right > innerWidth + 0.5 || left < -0.5); \
            }) \
            .map((node) => `${node.tagName} ${node.className} ${node.textContent.slice(0, 40)}`)";
        let beyond: Vec<String> = page.get(beyond, Value::Null)?;
        ensure!(beyond.is_empty(), "beyond the edge:\n{}", beyond.join("\n"));

        let scroll = "probe.all('.levertrain *') \
            .filter((node) => !node.closest('[data-part=stage], [data-part=driven]')) \
            .filter((node) => !node.matches('.file-field, .cm-scroller')) \
            .filter((node) => ['auto', 'scroll'].includes(getComputedStyle(node).overflowX)) \
            .filter((node) => node.scrollWidth > node.clientWidth + 1) \
            .map((node) => `${node.tagName} ${node.className} ${node.scrollWidth} in ${node.clientWidth}`)";
        let scroll: Vec<String> = page.get(scroll, Value::Null)?;
        ensure!(
            scroll.is_empty(),
            "these scroll sideways:\n{}",
            scroll.join("\n")
        );
        Ok(())
    })
}

/// Catches controls too small for a finger. 44 CSS pixels: WCAG 2.2, success criterion 2.5.5.
#[test]
fn what_a_finger_presses_is_large_enough() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(FIRST), |page| {
        page.run(UNFOLD, Value::Null)?;
        page.rest()?;
        // What is pressed is the whole row of a table, the whole label of a field. Parts in the drawing share
        // what room there is; the form has a field of full size for each.
        let small = "probe.all('button, select, summary, input, textarea, label.check') \
            .filter((node) => node.checkVisibility() && !node.readOnly && !node.disabled) \
            .filter((node) => !node.matches('.grip')) \
            .map((node) => node.closest('tr, label.check, .field') ?? node) \
            .filter((node) => { \
                const { width, height } = node.getBoundingClientRect(); \
                return width < 43.5 || height < 43.5; \
            }) \
            .map((node) => { \
                const { width, height } = node.getBoundingClientRect(); \
                const name = node.getAttribute('aria-label') ?? node.textContent.trim().slice(0, 40); \
                return `${node.tagName} \"${name}\": ${width.toFixed(1)} × ${height.toFixed(1)}`; \
            })";
        let small: Vec<String> = page.get(small, Value::Null)?;
        ensure!(small.is_empty(), "too small:\n{}", small.join("\n"));
        Ok(())
    })
}

/// Catches enlarged switches that lie over their neighbours' packs: the middle of each pack must
/// belong to its own switch.
#[test]
fn no_switch_covers_the_middle_of_another_pack() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        for view in [View::LAPTOP, View::PHONE] {
            page.change_view(view)?;
            page.goto("index.html")?;
            for file in files::scenarios()? {
                page.turn_to(&file.stem)?;
                let train = by_core::parse(&file.text)?;
                // One-way clutches have no switch: nobody applies them.
                let elements = train.scenario().elements.iter();
                for element in elements.filter(|element| !element.is_one_way()) {
                    let pack = page.pack(&train, element.id())?;
                    let at = "probe.host('lever-train').shadowRoot \
                        .elementFromPoint(args[0], args[1])?.dataset.elementId";
                    let on_top: Option<String> = page.get(at, json!(pack.centre))?;
                    ensure!(
                        on_top.as_deref() == Some(element.id()),
                        "{} on {view:?}: at the middle of {} lies {on_top:?}",
                        file.stem,
                        element.id()
                    );
                }
            }
        }
        Ok(())
    })
}
