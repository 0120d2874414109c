//! What is worked through (walkthrough, questions of each kind, fault finding), in both languages: no fault for those who hear the
//! page, nothing cut at 200 % zoom, and nothing told by colour alone where colours are forced.

use std::collections::BTreeSet;

use anyhow::{Context, Result, ensure};
use levertrain_core::exercise::QuestionReport;
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::accessibility::check_as_it_is;
use crate::exercises::{STEM, press, sheet, start};
use crate::language::speak_german;

/// A laptop's window at 200 %.
const ZOOMED: View = View {
    width: 640,
    height: 400,
    density: 2.0,
    ..View::LAPTOP
};

/// What reaches beyond the window, or is cut by what it is in.
const CUT: &str = "(() => { \
    const scrolls = (node) => ['auto', 'scroll'].includes(getComputedStyle(node).overflowX); \
    const inScroller = (node) => node && node !== document && (scrolls(node) || inScroller(node.parentElement)); \
    const told = probe.all('[data-part=exercises] *, [data-part=walk] *, [data-part=faults] *').filter((node) => \
        node.checkVisibility() && !node.closest('.unseen, svg') && !inScroller(node)); \
    const out = told.filter((node) => { \
        const { left, right, width } = node.getBoundingClientRect(); \
        return width > 1 && (left < -0.5 || right > innerWidth + 0.5); \
    }); \
    const cut = told.filter((node) => node.children.length === 0 && node.textContent.trim() && node.clientWidth > 0 \
        && !node.matches('option, input, select') && node.scrollWidth > node.clientWidth + 1); \
    return [told.length, document.documentElement.scrollWidth - innerWidth, \
        [...out, ...cut].map((node) => `${node.tagName} ${node.className} ${node.textContent.slice(0, 40)}`)]; \
})()";

/// Fields and buttons of the question that something lies over when they have the focus.
const HIDDEN: &str = "(() => { \
    const root = probe.host('lever-train').shadowRoot; \
    return probe.all('.exercise-round :is(input, button)').filter((node) => node.checkVisibility() && !node.disabled).filter((node) => { \
        node.focus(); \
        const { left, top, width, height } = node.getBoundingClientRect(); \
        const found = root.elementFromPoint(left + width / 2, top + height / 2); \
        return !found || !(node.contains(found) || found.contains(node)) || found.contains(root.querySelector('.exercise-round')); \
    }).map((node) => node.outerHTML.slice(0, 80)); \
})()";

/// Goes through the views, and says of each what it is.
fn go_through(page: &mut Page, mut look: impl FnMut(&mut Page, &str) -> Result<()>) -> Result<()> {
    const CHOOSE: &str = "const node = probe.one(args[0]); node.value = args[1] || node.options[1].value; \
        node.dispatchEvent(new Event('change', { bubbles: true }))";
    page.unfold("walk")?;
    page.until(
        "steps",
        "probe.all('[data-part=walk-steps] button').length > 1",
    )?;
    press(page, "[data-part=walk-next]")?;
    look(page, "in a step")?;
    page.run("probe.one('[data-part=walk]').open = false", Value::Null)?;

    page.unfold("faults")?;
    page.until(
        "faults are offered",
        "probe.one('#faults-first')?.options.length > 2",
    )?;
    page.run(CHOOSE, json!(["#faults-first", ""]))?;
    page.run(CHOOSE, json!(["[data-seen]", "lost"]))?;
    page.until(
        "pairs are listed",
        "probe.one('[data-part=faults-groups] details') && probe.one('[data-part=faults-explains] progress').hidden",
    )?;
    page.run(
        "for (const node of probe.all('[data-part=faults] .panel-body details')) node.open = true",
        Value::Null,
    )?;
    look(page, "fault finding")?;
    page.run("probe.one('[data-part=faults]').open = false", Value::Null)?;

    page.unfold("exercises")?;
    page.run(
        "for (const node of probe.all('[data-part=exercises] .panel-body details')) node.open = true",
        Value::Null,
    )?;
    look(page, "what is offered")?;
    let (train, sheet) = sheet()?;
    start(page)?;
    let mut kinds = BTreeSet::new();
    for task in &sheet.tasks {
        let by = QuestionReport::of(&train, task).by;
        if kinds.insert(by) {
            look(page, &format!("asked by {by}"))?;
            press(page, "[data-part=exercise-reveal]")?;
            look(page, &format!("answered by {by}"))?;
        } else {
            press(page, "[data-part=exercise-reveal]")?;
        }
        press(page, "[data-part=exercise-next]")?;
    }
    ensure!(kinds.len() >= 4, "{kinds:?}");
    page.until("it is over", "probe.one('.exercise-results')")?;
    look(page, "the result")
}

/// Catches names that are lost, faint words and wrong roles in any of the views, in either language.
#[test]
fn no_view_has_a_fault() -> Result<()> {
    for (view, german) in [(View::LAPTOP, true), (View::PHONE.dark(), false)] {
        page::open(view, &format!("#s={STEM}"), |page| {
            page.lift_security_policy()?;
            page.goto(&format!("index.html#s={STEM}&r=1"))?;
            if german {
                speak_german(page)?;
            }
            go_through(page, |page, what| {
                check_as_it_is(page, what, &["color-contrast", "button-name"])
            })
        })?;
    }
    Ok(())
}

/// Catches words and fields that reach beyond a window at 200 %, or are cut, in either language.
#[test]
fn nothing_is_cut_at_200_percent() -> Result<()> {
    for german in [false, true] {
        page::open(ZOOMED, &format!("#s={STEM}"), |page| {
            if german {
                speak_german(page)?;
            }
            go_through(page, |page, what| {
                page.rest()?;
                page.check_faults().with_context(|| what.to_owned())?;
                let (count, wide, out): (usize, f64, Vec<String>) = page.get(CUT, Value::Null)?;
                ensure!(count > 10, "{what}: {count} nodes");
                ensure!(
                    wide <= 0.0 && out.is_empty(),
                    "{what}, German: {german}: {wide} px, {out:?}"
                );
                let hidden: Vec<String> = page.get(HIDDEN, Value::Null)?;
                ensure!(hidden.is_empty(), "{what}: {hidden:?}");
                Ok(())
            })
        })?;
    }
    Ok(())
}

/// Catches a step, or a range to try next, that only a background tells where colours are forced.
#[test]
fn what_is_current_is_told_in_forced_colours() -> Result<()> {
    const OUTLINES: &str = "probe.all('[data-part=walk-steps] button').map((node) => { \
        const { outlineStyle, outlineWidth } = getComputedStyle(node); return `${outlineStyle} ${outlineWidth}`; })";
    page::open(View::LAPTOP.forced(), &format!("#s={STEM}&r=1"), |page| {
        page.unfold("walk")?;
        page.until(
            "steps",
            "probe.all('[data-part=walk-steps] button').length > 1",
        )?;
        press(page, "[data-part=walk-next]")?;
        let outlines: Vec<String> = page.get(OUTLINES, Value::Null)?;
        let first = outlines.first().context("a step")?;
        ensure!(
            first.starts_with("solid") && outlines[1..].iter().all(|other| other != first),
            "{outlines:?}"
        );
        Ok(())
    })
}
