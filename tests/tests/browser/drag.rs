//! Dragging plate packs with a mouse or a pen.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_tests::browser::{Device, Key, Page, Seen, View, page};
use serde::Deserialize;
use serde_json::Value;

use crate::by_hand::{self, FIRST, REVERSE};

/// Well past the middle, and well before it.
const PAST: f64 = 0.9;
const SHORT: f64 = 0.35;

fn in_first(test: impl FnOnce(&mut Page, &Train) -> Result<()>) -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        test(page, &by_hand::train()?)
    })
}

fn check_both_pictures_differ(a: &Seen, b: &Seen) -> Result<()> {
    ensure!(a.section != b.section, "the half-section is still the same");
    ensure!(a.lever != b.lever, "the lever diagram is still the same");
    Ok(())
}

/// Catches a drag that moves the picture of the pack but not the train, one that also counts as a
/// click (which would undo it), and switches that do not follow. Opening D in first gear leaves
/// only B: c1 = 0 fixes c2, and the output is free. Closing C then gives reverse.
#[test]
fn a_pack_dragged_open_and_another_dragged_closed_change_the_answer_and_both_drawings() -> Result<()>
{
    in_first(|page, train| {
        let first = page.seen()?;
        ensure!(first.ratio.as_deref() == Some(FIRST.ratio), "{first:?}");
        ensure!(first.exact.as_deref() == Some(FIRST.exact), "{first:?}");
        ensure!(first.applied == FIRST.applied, "{first:?}");

        let pack = page.pack(train, "J")?;
        page.drag(Device::Mouse, &pack, -PAST)?;
        let neutral = page.seen()?;
        ensure!(neutral.applied == ["W"], "{neutral:?}");
        ensure!(neutral.state.as_deref() == Some("Neutral"), "{neutral:?}");
        ensure!(
            neutral.ratio.is_none() && neutral.range.is_none(),
            "{neutral:?}"
        );
        check_both_pictures_differ(&first, &neutral)?;

        let pack = page.pack(train, "H")?;
        page.drag(Device::Mouse, &pack, PAST)?;
        let reverse = page.seen()?;
        ensure!(reverse.applied == REVERSE.applied, "{reverse:?}");
        ensure!(
            reverse.ratio.as_deref() == Some(REVERSE.ratio),
            "{reverse:?}"
        );
        ensure!(
            reverse.exact.as_deref() == Some(REVERSE.exact),
            "{reverse:?}"
        );
        ensure!(reverse.range.as_deref() == Some("R"), "{reverse:?}");
        ensure!(
            reverse.direction.as_deref() == Some("backward"),
            "{reverse:?}"
        );
        check_both_pictures_differ(&neutral, &reverse)
    })
}

/// Catches a pack that stays where it was let go, and a threshold on the wrong side.
#[test]
fn less_than_half_way_changes_nothing() -> Result<()> {
    in_first(|page, train| {
        let before = page.seen()?;
        for (id, share) in [("J", -SHORT), ("H", SHORT)] {
            let pack = page.pack(train, id)?;
            page.drag(Device::Mouse, &pack, share)?;
            let after = page.seen()?;
            ensure!(after == before, "dragging {id} by {share}: {after:?}");
        }
        Ok(())
    })
}

/// Catches a drag that reads the pointer's distance and not its direction: pulling an open pack
/// further open, or pushing a closed one further shut, is no wish for a change.
#[test]
fn the_wrong_way_changes_nothing() -> Result<()> {
    in_first(|page, train| {
        let before = page.seen()?;
        let mut tried = 0;
        for (id, share) in [
            ("V", -PAST),
            ("W", PAST),
            ("H", -PAST),
            ("J", PAST),
            ("K", -PAST),
        ] {
            let pack = page.pack(train, id)?;
            if pack.both_ways {
                continue;
            }
            page.drag(Device::Mouse, &pack, share)?;
            let after = page.seen()?;
            ensure!(after == before, "dragging {id} by {share}: {after:?}");
            tried += 1;
        }
        ensure!(tried > 0, "every pack closes both ways");
        Ok(())
    })
}

/// What the page shows right after it has handled a movement, before anything else happens.
#[derive(Debug, Deserialize)]
struct Moved {
    drawn_before: u32,
    drawn_after: u32,
    seen: Seen,
}

const WATCH_MOVES: &str = "window.moves = []; let drawn_before; \
    addEventListener('pointermove', () => (drawn_before = probe.drawn()), true); \
    addEventListener('pointermove', ({ buttons }) => { \
        if (buttons) moves.push({ drawn_before, drawn_after: probe.drawn(), seen: probe.seen() }); \
    })";

/// Catches an answer that comes only after the release, a preview that has already changed the
/// train, and drawings that wait for another frame.
#[test]
fn every_movement_shows_where_the_pack_is_and_what_letting_go_will_give() -> Result<()> {
    const MOVES: usize = 6;
    in_first(|page, train| {
        let before = page.seen()?;
        let pack = page.pack(train, "J")?;
        page.run(WATCH_MOVES, Value::Null)?;
        page.gesture(Device::Mouse, &pack.way(-PAST, MOVES))?;
        let moves: Vec<Moved> = page.get("moves", Value::Null)?;
        // The first may be too small to count as a drag.
        let moves = moves.get(1..).unwrap_or_default();
        ensure!(moves.len() >= MOVES / 2, "{} movements", moves.len());
        let mut section = &before.section;
        for Moved {
            drawn_before,
            drawn_after,
            seen,
        } in moves
        {
            ensure!(drawn_after > drawn_before, "drawn later than the movement");
            ensure!(seen.section != *section, "the pack does not follow");
            section = &seen.section;
            ensure!(seen.preview, "{seen:?}");
            ensure!(
                seen.applied == FIRST.applied,
                "applied before letting go: {seen:?}"
            );
            ensure!(seen.state.as_deref() == Some("Neutral"), "{seen:?}");
            let kicker = seen.kicker.as_deref().unwrap_or_default();
            ensure!(kicker.contains("releasing Clutch J"), "{kicker:?}");
        }
        let after = page.seen()?;
        ensure!(!after.preview && after.applied == ["W"], "{after:?}");
        Ok(())
    })
}

/// Catches an Escape that only hides the preview: the release that follows must not apply
/// anything, and the next drag must work again.
#[test]
fn escape_cancels() -> Result<()> {
    in_first(|page, train| {
        page.point_away()?;
        let before = page.seen()?;
        let pack = page.pack(train, "J")?;
        page.run(
            "window.keys = []; addEventListener('keydown', () => keys.push(probe.seen().preview), true); \
             addEventListener('keyup', () => keys.push(probe.seen().preview), true)",
            Value::Null,
        )?;
        page.gesture_with_key(&pack.way(-PAST, 4), Key::Escape, &[pack.point(-1.0)])?;
        page.point_away()?;
        let keys: Vec<bool> = page.get("keys", Value::Null)?;
        ensure!(
            keys == [true, false],
            "preview before and after Escape: {keys:?}"
        );
        let after = page.seen()?;
        ensure!(after == before, "{after:?}");

        page.drag(Device::Mouse, &pack, -PAST)?;
        ensure!(page.seen()?.applied == ["W"], "the next drag does nothing");
        Ok(())
    })
}

/// Catches a page that listens to mouse events and not to pointer events.
#[test]
fn a_pen_drags_as_well() -> Result<()> {
    in_first(|page, train| {
        let pack = page.pack(train, "J")?;
        page.drag(Device::Pen, &pack, -PAST)?;
        ensure!(page.seen()?.applied == ["W"], "the pen does nothing");
        Ok(())
    })
}

/// Catches a press that needs a movement, and one that counts twice.
#[test]
fn a_press_without_movement_is_a_click() -> Result<()> {
    in_first(|page, train| {
        for applied in [&["W"][..], &FIRST.applied] {
            let pack = page.pack(train, "J")?;
            page.drag(Device::Mouse, &pack, 0.0)?;
            let seen = page.seen()?;
            ensure!(seen.applied == applied, "{seen:?}");
        }
        Ok(())
    })
}

/// Catches a measurement that is missing for some of the movements: the figures of the benchmark
/// come from it.
#[test]
fn the_script_time_of_every_movement_is_recorded() -> Result<()> {
    const MOVES: usize = 20;
    in_first(|page, train| {
        let pack = page.pack(train, "J")?;
        page.gesture(Device::Mouse, &pack.way(-PAST, MOVES))?;
        let script =
            "performance.getEntriesByName('levertrain-drag').map((entry) => entry.duration)";
        let durations: Vec<f64> = page.get(script, Value::Null)?;
        // The first movements may be too small to count as a drag.
        ensure!(
            durations.len() >= MOVES - 5,
            "{} measurements",
            durations.len()
        );
        ensure!(durations.iter().all(|ms| *ms >= 0.0), "{durations:?}");
        Ok(())
    })
}
