//! The same page in browsers with other engines.

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Device, Key, Other, Page};
use serde::Deserialize;
use serde_json::Value;

use crate::by_hand::{self, FIRST, SIXTH};

/// A fraction of a formula, as it stands on screen.
#[derive(Debug, Deserialize)]
struct Fraction {
    height: f64,
    /// How far the lower end of what is above is over the upper end of what is below.
    apart: f64,
    /// How far their middles are from one line.
    aside: f64,
    letter: f64,
}

const FRACTIONS: &str = "probe.all('[data-part=working] mfrac').map((node) => { \
    const box = (node) => node.getBoundingClientRect(); \
    const [above, below] = [...node.children].map(box); \
    const middle = ({ left, right }) => (left + right) / 2; \
    return { height: box(node).height, apart: below.top - above.bottom, \
        aside: Math.abs(middle(above) - middle(below)), \
        letter: box(node.querySelector('mi, mn')).height }; \
})";

/// Catches what only one engine forgives: a script it does not know, a drag it does not tell of, pixels
/// it does not draw, formulas that it writes in one line, letters that the editor does not hear of.
fn works(page: &Page) -> Result<()> {
    let train = by_hand::train()?;
    let first = page.seen()?;
    ensure!(first.ratio.as_deref() == Some(FIRST.ratio), "{first:?}");
    let canvas = page.canvas("section")?;
    ensure!(canvas.colours > 20 && canvas.ground < 0.99, "{canvas:?}");

    let pack = page.pack(&train, "W")?;
    page.drag(Device::Mouse, &pack, -0.9)?;
    let open = page.seen()?;
    ensure!(open.applied == ["J"], "{open:?}");
    ensure!(open.state.as_deref() == Some("Neutral"), "{open:?}");
    ensure!(open.section != first.section && open.lever != first.lever);
    let pack = page.pack(&train, "W")?;
    page.drag(Device::Mouse, &pack, 0.9)?;
    let closed = page.seen()?;
    ensure!(closed.ratio.as_deref() == Some(FIRST.ratio), "{closed:?}");

    page.run(
        "probe.one('[role=switch][data-element-id=W]').focus()",
        Value::Null,
    )?;
    page.keys([Key::Space])?;
    ensure!(page.seen()?.applied == ["J"], "no switch by key");
    page.click_range(SIXTH.id)?;
    let sixth = page.seen()?;
    ensure!(sixth.ratio.as_deref() == Some(SIXTH.ratio), "{sixth:?}");

    page.unfold("working")?;
    let fractions: Vec<Fraction> = page.get(FRACTIONS, Value::Null)?;
    ensure!(fractions.len() > 2, "{} fractions", fractions.len());
    for fraction in fractions {
        ensure!(
            fraction.height > 1.3 * fraction.letter
                && fraction.apart > -1.0
                && fraction.aside < 2.0,
            "{fraction:?}"
        );
    }

    page.click_range(FIRST.id)?;
    page.unfold("file")?;
    page.until("the editor has come", "probe.one('.cm-content')")?;
    page.run(
        "const { view } = probe.one('.cm-content').cmTile; \
         const teeth = view.state.doc.toString().indexOf('\"teeth\": 51') + 9; \
         view.focus(); \
         view.dispatch({ selection: { anchor: teeth, head: teeth + 2 }, scrollIntoView: true })",
        Value::Null,
    )?;
    page.keys(['5', '8'])?;
    page.until("it drives 5/2", "probe.seen().exact === '5/2'")
}

fn check(other: Other, test: fn(&Page) -> Result<()>) -> Result<()> {
    let attributes = format!(
        "scenario=\"{}\" applied=\"{}\"",
        by_hand::STEM,
        FIRST.applied.join(",")
    );
    other
        .open(&attributes, |page| test(page))
        .with_context(|| format!("{other:?}"))
}

#[test]
fn it_works_in_firefox() -> Result<()> {
    check(Other::Firefox, works)
}

#[test]
fn it_works_in_webkit() -> Result<()> {
    check(Other::WebKit, works)
}

/// What a reader zooms to one after the other.
const ZOOMS: [f64; 5] = [1.0, 1.5, 3.0, 1.25, 1.0];

/// Below this many pixels of the screen to one of the page, drawings have twice as many.
const FINE: f64 = 1.5;

/// Catches drawings that keep the pixels they had before the reader zoomed, and those that are left blank when
/// they are given others.
fn is_sharp_at_any_zoom(page: &Page) -> Result<()> {
    let mut hashes = Vec::new();
    for zoom in ZOOMS {
        page.zoom_in_firefox(zoom)?;
        for drawing in ["section", "lever"] {
            let canvas = page.canvas(drawing)?;
            let what = format!("{drawing} at {zoom}: {canvas:?}");
            let fineness = if zoom < FINE { 2.0 * zoom } else { zoom };
            let sides = [
                (canvas.size.0, canvas.on_page.0),
                (canvas.size.1, canvas.on_page.1),
            ];
            for (pixels, on_page) in sides {
                ensure!((pixels - on_page * fineness).abs() <= 1.0, "{what}");
            }
            ensure!(canvas.colours > 20 && canvas.ground < 0.99, "{what}");
            hashes.push(canvas.hash);
        }
    }
    ensure!(hashes[..2] == hashes[8..], "not as before: {hashes:?}");
    Ok(())
}

#[test]
fn zooming_in_firefox_draws_with_the_pixels_of_the_screen() -> Result<()> {
    check(Other::Firefox, is_sharp_at_any_zoom)
}
