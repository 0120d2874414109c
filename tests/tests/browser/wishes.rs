//! What a system asks for in the panels to learn with: a few colours of its own, and little motion.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

/// The colours that a part has for its sign beside another's.
fn colours(page: &Page, selector: &str, property: &str) -> Result<Vec<String>> {
    page.get(
        "probe.all(args[0]).map((node) => getComputedStyle(node)[args[1]])",
        json!([selector, property]),
    )
}

/// Catches a current step that only a tint tells, which forced colours take away.
#[test]
fn the_current_step_is_told_in_forced_colours() -> Result<()> {
    for view in [View::LAPTOP.forced(), View::LAPTOP.dark().forced()] {
        page::open(view, "#s=04-six-speed-three-sets&on=V,J", |page| {
            page.unfold("walk")?;
            page.until(
                "steps",
                "probe.all('[data-part=walk-steps] button').length > 1",
            )?;
            page.click("[data-part=walk-next]")?;
            let edges = colours(page, "[data-part=walk-steps] button", "borderLeftColor")?;
            let others = edges.iter().skip(1).filter(|edge| **edge == edges[0]);
            ensure!(others.count() == 0, "{edges:?}");
            // The one that is forced is the system's for what is chosen.
            let chosen: String = page.get(
                "(() => { const node = document.body.appendChild(document.createElement('p')); \
                    node.style.color = 'Highlight'; const { color } = getComputedStyle(node); node.remove(); return color; })()",
                Value::Null,
            )?;
            ensure!(edges[0] == chosen, "{edges:?}, not {chosen}");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches ranges of a fault table, and marks of an answer, that only a colour tells apart.
#[test]
fn faults_and_marks_are_told_without_colours() -> Result<()> {
    page::open(
        View::LAPTOP.forced(),
        "#s=04-six-speed-three-sets",
        |page| {
            page.unfold("faults")?;
            page.until(
                "effects",
                "probe.all('[data-part=faults] tbody tr').length > 3",
            )?;
            let words: Vec<String> = page.get(
                "probe.all('[data-part=faults] tbody tr').map((row) => row.textContent.trim())",
                Value::Null,
            )?;
            ensure!(words.iter().all(|row| !row.is_empty()), "{words:?}");
            let unseen: Vec<String> = page.get(
            "probe.all('[data-part=faults] button, [data-part=faults] select, [data-part=faults] summary') \
                .filter((node) => node.checkVisibility()) \
                .filter((node) => { const { color, backgroundColor } = getComputedStyle(node); return color === backgroundColor; }) \
                .map((node) => node.textContent)",
            Value::Null,
        )?;
            ensure!(unseen.is_empty(), "{unseen:?}");
            Ok(())
        },
    )?;
    page::open(View::LAPTOP.forced(), "#s=01-one-set", |page| {
        page.unfold("exercises")?;
        page.until(
            "its own sheet is offered",
            "!probe.one('[data-part=exercise-sheet]').hidden",
        )?;
        page.click("[data-part=exercise-sheet]")?;
        page.until("it asks", "probe.one('.exercise-asked')")?;
        let boxes = "probe.all('.exercise-card input').map((node) => getComputedStyle(node).backgroundColor)";
        page.run("probe.one('.exercise-card input').click()", Value::Null)?;
        let ground: Vec<String> = page.get(boxes, Value::Null)?;
        ensure!(
            ground.len() > 1 && ground[1..].iter().all(|other| *other != ground[0]),
            "what is picked looks like the rest: {ground:?}"
        );
        page.click("[data-part=exercise-check]")?;
        page.until("it is marked", "probe.one('.exercise-result b')")?;
        let sign: String = page.get("probe.text('.exercise-result span')", Value::Null)?;
        ensure!(["✓", "✗", "◐"].contains(&&*sign), "{sign}");
        Ok(())
    })
}

/// Catches steps that glide or scroll smoothly, a question that comes with motion, and drawings that never rest where
/// the system asks for little motion.
#[test]
fn nothing_to_learn_with_moves_where_little_motion_is_asked_for() -> Result<()> {
    const MOVES: &str = "probe.all('*').filter((node) => { \
        const { transitionDuration, animationName, scrollBehavior } = getComputedStyle(node); \
        return transitionDuration.split(', ').some((time) => time !== '0s') || animationName !== 'none' || scrollBehavior === 'smooth'; \
    }).length";
    page::open(
        View::LAPTOP.still(),
        "#s=04-six-speed-three-sets&on=V,J",
        |page| {
            for panel in ["walk", "faults", "exercises"] {
                page.unfold(panel)?;
            }
            ensure!(page.get::<usize>(MOVES, Value::Null)? == 0);
            page.run("window.drawn = probe.drawn()", Value::Null)?;
            page.click("[data-part=walk-next]")?;
            page.rest()?;
            let frames: u32 = page.get("probe.drawn() - window.drawn", Value::Null)?;
            ensure!((1..=2).contains(&frames), "{frames} frames to a step");
            page.run("window.drawn = probe.drawn()", Value::Null)?;
            page.click("[data-part=exercise-begin]")?;
            page.until("it asks", "probe.one('.exercise-asked')")?;
            page.rest()?;
            let frames: u32 = page.get("probe.drawn() - window.drawn", Value::Null)?;
            ensure!(frames <= 3, "{frames} frames to a question");
            ensure!(page.get::<usize>(MOVES, Value::Null)? == 0);
            Ok(())
        },
    )
}
