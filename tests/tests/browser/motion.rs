//! Movement in the drawings: some, none where the system asks for none, and never without end.

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND};

/// Presses a button and gives the hash of every drawing that follows.
fn record(page: &Page, drawing: &str, selector: &str) -> Result<Vec<String>> {
    page.get(
        "probe.record(args[0], () => probe.one(args[1]).click())",
        json!([drawing, selector]),
    )
}

fn button(id: &str) -> String {
    format!(".range-buttons [data-range-id=\"{id}\"]")
}

/// Catches frames that are asked for although nothing moves: they keep a laptop warm all day.
fn check_idle(page: &Page) -> Result<()> {
    page.rest()?;
    let asked: usize = page.get("probe.requestsDuring(60)", Value::Null)?;
    ensure!(asked == 0, "{asked} frames asked for in 60, at rest");
    Ok(())
}

/// Catches changes that jump, and a loop that goes on after the glide.
#[test]
fn speeds_glide_to_their_new_values_and_then_nothing_moves() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        check_idle(page)?;
        let before = page.seen()?.lever;
        let mut hashes = record(page, "lever", &button(SECOND.id))?;
        let last = hashes.last().cloned().context("nothing was drawn")?;
        hashes.retain(|hash| *hash != before && *hash != last);
        hashes.dedup();
        // The step of a frame is limited to half the glide, so even a slow machine shows two.
        ensure!(hashes.len() >= 2, "{} pictures on the way", hashes.len());
        ensure!(page.seen()?.lever == last, "it moves after the last frame");
        check_idle(page)
    })
}

/// Catches glides that ignore the system's wish, and ones that only hide the frames between: each
/// picture after the change must already be the last.
#[test]
fn with_little_motion_the_drawing_is_there_at_once() -> Result<()> {
    let mut still = None;
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        for drawing in ["lever", "section"] {
            let mut hashes = record(page, drawing, &button(SECOND.id))?;
            ensure!(!hashes.is_empty(), "nothing was drawn");
            hashes.dedup();
            ensure!(
                hashes.len() == 1,
                "{} different pictures of {drawing}",
                hashes.len()
            );
            page.click_range(FIRST.id)?;
        }
        ensure!(
            page.get::<bool>("probe.one('[data-part=turning]').disabled", Value::Null)?,
            "turning is offered"
        );
        check_idle(page)?;
        still = Some(page.seen()?);
        Ok(())
    })?;
    // Settled is settled: the same picture as after a glide.
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        page.click_range(FIRST.id)?;
        let glided = page.seen()?;
        ensure!(Some(&glided) == still.as_ref(), "{glided:?}\n{still:?}");
        Ok(())
    })
}

/// Catches turning that does not start, does not stop, or goes on when the system starts asking
/// for stillness.
#[test]
fn turning_starts_and_stops() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let turning = |page: &Page| -> Result<bool> {
            let [a, b]: [usize; 2] = page.get(
                "(async () => { const a = probe.drawn(); const asked = await probe.requestsDuring(20); \
                 return [asked, probe.drawn() - a]; })()",
                Value::Null,
            )?;
            Ok(a >= 10 && b >= 10)
        };
        page.run("probe.one('[data-part=end-view]').open = true", Value::Null)?;
        let before = page.canvas("end")?.hash;
        page.click("[data-part=turning]")?;
        ensure!(turning(page)?, "it does not turn");
        page.click("[data-part=turning]")?;
        check_idle(page)?;
        ensure!(
            page.canvas("end")?.hash != before,
            "the gears stand where they stood"
        );

        page.click("[data-part=turning]")?;
        ensure!(turning(page)?, "it does not turn again");
        page.change_view(View::LAPTOP.still())?;
        check_idle(page)
    })
}

/// Catches a colour, an arrow or a hatching that nothing explains where it stands, or that is explained as
/// what it was before. In first of the six-speed some shafts are held, and one turns backward.
#[test]
fn signs_are_explained_where_they_stand() -> Result<()> {
    const POINT: &str = "(() => { \
        const canvas = probe.one('canvas[data-drawing=section]'); \
        const { left, top, width, height } = canvas.getBoundingClientRect(); \
        const found = {}; \
        for (let x = 0; x < width; x += 6) for (let y = 40; y < height; y += 6) { \
            canvas.dispatchEvent(new PointerEvent('pointermove', { clientX: left + x, clientY: top + y, bubbles: true })); \
            if (canvas.title) found[probe.text('.caption[data-lit] b')] = canvas.title; \
        } \
        const { shafts, motions } = probe.host('lever-train').answer; \
        return shafts.flatMap(({ label }, at) => label in found ? [[label, motions[at], found[label]]] : []); \
    })()";
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let mut seen = Vec::new();
        for range in [FIRST, SECOND] {
            page.click_range(range.id)?;
            let signs: Vec<[String; 3]> = page.get(POINT, Value::Null)?;
            ensure!(signs.len() > 3, "{signs:?}");
            for [label, motion, words] in signs {
                let sign = match &*motion {
                    "held" => "hatched",
                    "forward" => "up",
                    "backward" => "down",
                    _ => "dashed",
                };
                ensure!(
                    words.starts_with(&label) && words.contains(sign),
                    "{label}, {motion}: {words}"
                );
                seen.push(motion);
            }
            let packs: Vec<[String; 2]> = page.get(
                "probe.all('[role=switch]').map((node) => [node.ariaChecked, node.title])",
                Value::Null,
            )?;
            for [applied, words] in packs {
                let sign = if applied == "true" {
                    "pressed"
                } else {
                    "apart"
                };
                ensure!(words.contains(sign), "{applied}: {words}");
            }
        }
        ensure!(
            ["held", "forward", "backward"]
                .iter()
                .all(|motion| seen.iter().any(|it| it == motion)),
            "{seen:?}"
        );
        Ok(())
    })
}
