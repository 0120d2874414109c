//! How long an edit takes, from the event in the form to the finished drawing, form and chart included.

use anyhow::{Context, Result};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::worst;
use serde_json::json;

use crate::opening;
use crate::times::Times;
use crate::{LARGEST, SIX_SPEED};

/// Edits of each kind.
const EDITS: usize = 60;

/// Types tooth counts into the first gear of each set in turn, and takes its last brake or clutch away and
/// back; the script time of each in milliseconds until the drawings are finished and until all else is too,
/// and the longest task.
const EDIT: &str = "(async () => { \
    const tasks = []; \
    let drawn = 0; \
    for (const name of ['stroke', 'fill', 'fillText']) { \
        const { [name]: act } = CanvasRenderingContext2D.prototype; \
        CanvasRenderingContext2D.prototype[name] = function (...values) { \
            act.apply(this, values); \
            drawn = performance.now(); \
        }; \
    } \
    new PerformanceObserver((list) => tasks.push(...list.getEntries())).observe({ type: 'longtask' }); \
    const pause = () => new Promise((resolve) => setTimeout(resolve, 120)); \
    const timed = (act) => { const start = performance.now(); act(); return [drawn - start, performance.now() - start]; }; \
    const fields = () => probe.all('[data-part=edit] [data-key]').filter(({ dataset }) => /^teeth .* 0$/.test(dataset.key)); \
    const [teeth, structure] = [[], []]; \
    for (let at = 0; at < args; at++) { \
        const field = fields()[at % fields().length]; \
        field.value = String(Number(field.value) + (at % 2 ? -1 : 1)); \
        teeth.push(timed(() => field.dispatchEvent(new Event('input', { bubbles: true })))); \
        await pause(); \
    } \
    const button = (key) => probe.all('[data-part=edit] button').filter(({ dataset }) => dataset.key?.startsWith(key)); \
    for (let at = 0; at < args / 2; at++) { \
        const remove = button('remove ').filter((node) => node.closest('[data-element]')).at(-1); \
        structure.push(timed(() => remove.click())); \
        await pause(); \
        structure.push(timed(() => button('undo')[0].click())); \
        await pause(); \
    } \
    return [teeth, structure, tasks.map(({ duration }) => duration)]; \
})()";

/// Times edits of the six-speed and of the largest file.
pub fn report() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX_SPEED}&on=W,J"), |page| {
        report_edits(page, "six-speed")
    })?;
    page::open(View::LAPTOP, "", |page| {
        let files = worst::files();
        let largest = files.iter().find(|file| file.name == LARGEST);
        opening::open_file(page, largest.context(LARGEST)?)?;
        report_edits(page, LARGEST)
    })
}

fn report_edits(page: &Page, what: &str) -> Result<()> {
    page.unfold("edit")?;
    page.until(
        "there is a form",
        "probe.all('[data-part=edit] [data-set]').length > 0",
    )?;
    page.rest()?;
    type Edits = Vec<[f64; 2]>;
    let (teeth, structure, tasks): (Edits, Edits, Vec<f64>) = page.get(EDIT, json!(EDITS))?;
    for (kind, times) in [
        ("of a tooth count", teeth),
        ("that takes a clutch away, or back", structure),
    ] {
        for (index, until) in ["drawing", "all else as well"].into_iter().enumerate() {
            let times = times.iter().map(|both| both[index]).collect();
            let times = Times::new(times).with_context(|| format!("{what}: no edit"))?;
            println!(
                "  edit {kind}, {what}, event to {until}: median {:.2} ms, 95 % below {:.2} ms, of {}",
                times.share(0.5),
                times.share(0.95),
                times.count()
            );
        }
    }
    let longest = tasks.into_iter().fold(0.0, f64::max);
    println!("  longest task meanwhile: {longest:.0} ms (0: none over 50)");
    Ok(())
}
