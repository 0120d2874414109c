//! A shift in time: its ramps can be dragged, what comes of it is what the core says, and both drawings show its instants.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::Train;
use levertrain_core::transient::{Dynamics, Plan, Shift};
use levertrain_tests::browser::{Device, Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::{by_core, editing, language};

const SIX: &str = "04-six-speed-three-sets";
const FLARE: &str = "Flare";
/// When what is released in a usual shift begins to go, in seconds: a step of keys is a hundredth.
const STEP: f64 = 0.01;

/// Unfolds the panel and waits for the plot.
fn open(page: &Page) -> Result<()> {
    page.unfold("timed")?;
    page.until(
        "the plot is there",
        "probe.all('.timed-grip').length > 0 && probe.one('.timed-grip').style.left !== ''",
    )?;
    page.rest()
}

fn verdict(page: &Page) -> Result<String> {
    page.get(
        "probe.one('[data-part=timed-verdict]').textContent",
        Value::Null,
    )
}

fn time_of(page: &Page, part: &str) -> Result<f64> {
    page.get(
        &format!("Number(probe.one('[data-part={part}]').getAttribute('aria-valuenow'))"),
        Value::Null,
    )
}

/// The middle of something in the window.
fn middle(page: &Page, selector: &str) -> Result<(f64, f64)> {
    page.get(
        &format!(
            "(() => {{ const box = probe.one('{selector}').getBoundingClientRect(); \
             return [box.left + box.width / 2, box.top + box.height / 2]; }})()"
        ),
        Value::Null,
    )
}

/// The figures of a column, by what they are.
fn figures(page: &Page) -> Result<Vec<(String, String)>> {
    page.get(
        "probe.all('[data-part=timed-figures] tbody tr').map((row) => [row.cells[0].textContent, row.cells[1].textContent])",
        Value::Null,
    )
}

fn six() -> Result<(Train, Dynamics)> {
    let train = by_core::train(SIX)?;
    let (dynamics, _) = Dynamics::of(&train);
    Ok((train, dynamics))
}

fn into_view(page: &Page, selector: &str) -> Result<()> {
    page.run(
        &format!("probe.one('{selector}').scrollIntoView({{ block: 'center' }})"),
        Value::Null,
    )?;
    page.rest()
}

/// Catches numbers of another shift than that between the chosen ranges, and keys that move a ramp by another step.
#[test]
fn keys_move_a_ramp_and_the_figures_are_those_of_the_core() -> Result<()> {
    let (train, dynamics) = six()?;
    let plan = Plan::suited(&train, &dynamics, train.range(0), train.range(1));
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        open(page)?;
        let first = verdict(page)?;
        ensure!(!first.contains(FLARE), "{first}");
        page.run("probe.one('[data-part=timed-J-0]').focus()", Value::Null)?;
        page.keys([Key::Left; 10])?;
        page.rest()?;
        let mut plan = plan;
        let released = plan.released().iter().next().context("one is released")?;
        let mut commands = plan.commands.iter_mut();
        let command = commands
            .find(|command| command.element == released)
            .context("a command")?;
        command.at -= 10.0 * STEP;
        plan.until = page.get("Number(probe.one('#timed-until').value)", Value::Null)?;
        let at = time_of(page, "timed-J-0")?;
        let expected = plan
            .commands
            .iter()
            .find(|x| x.element == released)
            .context("it")?
            .at;
        ensure!((at - expected).abs() < 1e-3, "{at}, not {expected}");
        let shift = Shift::of(&train, &dynamics, plan).map_err(|x| anyhow::anyhow!("{x:?}"))?;
        ensure!(!shift.marks.flares.is_empty(), "this flares");
        let second = verdict(page)?;
        ensure!(second.starts_with(FLARE), "{second}");
        let shown = figures(page)?;
        let figure = |name: &str| -> Result<f64> {
            let (_, text) = shown
                .iter()
                .find(|(head, _)| head.starts_with(name))
                .context("a row")?;
            Ok(text.replace('\u{2009}', "").parse()?)
        };
        let flare = shift.marks.flare * 30.0 / std::f64::consts::PI;
        for (name, value) in [
            ("Flare", flare),
            ("Energy made heat", shift.figures.energy.heat),
            ("Drop", shift.figures.drop),
        ] {
            let shown = figure(name)?;
            ensure!(
                (shown - value).abs() <= 0.01 * value.abs() + 0.02,
                "{name}: {shown}, not {value}"
            );
        }
        Ok(())
    })
}

/// Catches handles that cannot be dragged by pointer or finger, or that move another command, and a plot that stays as it was.
#[test]
fn a_ramp_is_dragged_by_pointer_and_finger() -> Result<()> {
    for (view, device) in [(View::LAPTOP, Device::Mouse), (View::PHONE, Device::Touch)] {
        page::open(view, &format!("#s={SIX}"), |page| {
            open(page)?;
            into_view(page, "[data-part=timed-J-0]")?;
            let before = page.canvas("in-time")?;
            let others = time_of(page, "timed-K-0")?;
            let (x, y) = middle(page, "[data-part=timed-J-0]")?;
            let at = time_of(page, "timed-J-0")?;
            page.gesture(device, &[(x, y), (x - 15.0, y), (x - 30.0, y)])?;
            page.rest()?;
            let sooner = time_of(page, "timed-J-0")?;
            ensure!(sooner < at - 0.02, "{view:?}: {sooner} after {at}");
            ensure!(
                time_of(page, "timed-K-0")? == others,
                "{view:?}: another moved"
            );
            ensure!(
                page.canvas("in-time")?.hash != before.hash,
                "{view:?}: the plot stays"
            );
            ensure!(
                verdict(page)?.starts_with(FLARE),
                "{view:?}: {}",
                verdict(page)?
            );
            // Back again, it is good again.
            let (x, y) = middle(page, "[data-part=timed-J-0]")?;
            page.gesture(device, &[(x, y), (x + 10.0, y), (x + 30.0, y)])?;
            page.rest()?;
            ensure!((time_of(page, "timed-J-0")? - at).abs() < 0.01, "{view:?}");
            ensure!(
                !verdict(page)?.starts_with(FLARE),
                "{view:?}: {}",
                verdict(page)?
            );
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches drawings that do not show the instant that is read, that keep showing it, and a bar that stays.
#[test]
fn both_drawings_show_an_instant_until_something_is_applied() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        open(page)?;
        let steady = [page.canvas("section")?.hash, page.canvas("lever")?.hash];
        page.click("[data-part=timed-on-stage]")?;
        page.click("[data-part=timed-play]")?;
        page.run(
            "const slider = probe.one('[data-part=timed-bar-time]'); slider.value = '0.4'; slider.dispatchEvent(new Event('input'))",
            Value::Null,
        )?;
        page.rest()?;
        let shown = [page.canvas("section")?.hash, page.canvas("lever")?.hash];
        ensure!(
            shown[0] != steady[0] && shown[1] != steady[1],
            "they show what they did"
        );
        let words: String = page.get(
            "probe.one('[data-part=timed-now]').textContent",
            Value::Null,
        )?;
        ensure!(
            words.contains("0.400 s") && words.contains("inertia"),
            "{words}"
        );
        page.click("[data-part=timed-back]")?;
        page.rest()?;
        let again = [page.canvas("section")?.hash, page.canvas("lever")?.hash];
        ensure!(again == steady, "they show something else than before");
        ensure!(!page.shows("[data-part=timed-bar]")?, "the bar stays");
        page.click("[data-part=timed-on-stage]")?;
        page.click("[data-part=timed-play]")?;
        page.click_range("2")?;
        page.rest()?;
        ensure!(
            !page.shows("[data-part=timed-bar]")?,
            "the bar stays after a range was applied"
        );
        ensure!(
            page.seen()?.range.as_deref() == Some("2"),
            "{:?}",
            page.seen()?
        );
        Ok(())
    })
}

/// Catches a kept shift that is not set beside the present one, and a shift that is refused without a word.
#[test]
fn a_shift_is_kept_to_compare_and_a_refusal_is_told() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        open(page)?;
        let kept: Vec<String> = figures(page)?.into_iter().map(|(_, value)| value).collect();
        page.click("[data-part=timed-keep]")?;
        page.run("probe.one('[data-part=timed-J-1]').focus()", Value::Null)?;
        page.keys([Key::PageUp])?;
        page.rest()?;
        let beside: Vec<[String; 2]> = page.get(
            "probe.all('[data-part=timed-figures] tbody tr').map((row) => [row.cells[1].textContent, row.cells[2].textContent])",
            Value::Null,
        )?;
        let old: Vec<&String> = beside.iter().map(|[_, old]| old).collect();
        ensure!(
            old.iter().zip(&kept).all(|(a, b)| *a == b),
            "{old:?}, not {kept:?}"
        );
        ensure!(
            beside.iter().any(|[now, old]| now != old),
            "nothing has changed"
        );
        ensure!(page.shows("[data-part=timed-figures] th:nth-child(3)")?);
        // All released is neutral, and what ties up moves nothing.
        // With W and J of the first range it is tied up.
        page.click("[data-element-id=K]")?;
        ensure!(
            page.seen()?.applied == ["J", "K", "W"],
            "{:?}",
            page.seen()?
        );
        page.run(
            "const from = probe.one('#timed-from'); from.value = ' '; from.dispatchEvent(new Event('change'))",
            Value::Null,
        )?;
        page.rest()?;
        ensure!(
            page.shows("[data-part=timed-refused]")?,
            "it is not refused"
        );
        ensure!(!page.shows(".timed-plot")?, "a plot of nothing");
        Ok(())
    })
}

/// Catches a map that tells something else than what a press on it then commands.
#[test]
fn the_map_commands_the_timing_that_it_tells() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        open(page)?;
        page.click("[data-part=timed-map-begin]")?;
        page.until(
            "the map is there",
            "probe.one('[data-part=timed-map-told]').textContent !== ''",
        )?;
        page.run("probe.one('.timed-cell').focus()", Value::Null)?;
        page.keys([Key::Left, Key::Left, Key::Left, Key::Up])?;
        let told: String = page.get(
            "probe.one('[data-part=timed-map-told]').textContent",
            Value::Null,
        )?;
        page.keys([Key::Enter])?;
        page.rest()?;
        let shown = figures(page)?;
        let (_, flare) = shown
            .iter()
            .find(|(head, _)| head.starts_with("Flare"))
            .context("a row")?;
        ensure!(told.contains(&format!("flare {flare}")), "{told}: {flare}");
        let at = time_of(page, "timed-J-0")?;
        ensure!(
            told.starts_with(&format!("Release at {at:.3}\u{a0}s"))
                || told.starts_with(&format!("Release at {at:.3} s")),
            "{told}: {at}"
        );
        // By pointer: what is told is of the mark that was pressed.
        into_view(page, ".timed-map-plot")?;
        let (x, y) = middle(page, ".timed-map-plot canvas")?;
        page.gesture(Device::Mouse, &[(x, y)])?;
        page.rest()?;
        let after: String = page.get(
            "probe.one('[data-part=timed-map-told]').textContent",
            Value::Null,
        )?;
        ensure!(after != told, "{after}");
        let flare = figures(page)?;
        let (_, flare) = flare
            .iter()
            .find(|(head, _)| head.starts_with("Flare"))
            .context("a row")?;
        ensure!(
            after.contains(&format!("flare {flare}")),
            "{after}: {flare}"
        );
        Ok(())
    })
}

/// Catches English in the German panel.
#[test]
fn the_panel_speaks_german() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        language::speak_german(page)?;
        open(page)?;
        let words: String = page.get(
            "probe.one('details[data-part=timed]').textContent",
            Value::Null,
        )?;
        for german in [
            "Weder Hochdrehen",
            "Momentphase",
            "angenommen",
            "Früher oder später",
        ] {
            ensure!(words.contains(german), "{german} is not in {words}");
        }
        for english in ["flare", "release", "assumed", "Keep"] {
            ensure!(!words.contains(english), "{english} is in it");
        }
        Ok(())
    })
}

/// Catches a fault in what the file says of inertias that is passed over in silence, and one that keeps the panel from showing anything.
#[test]
fn what_is_wrong_with_the_dynamics_of_a_file_is_told() -> Result<()> {
    let files = files::scenarios()?;
    let six = files.iter().find(|file| file.stem == SIX);
    let mut file: Value = serde_json::from_str(&six.context("the six-speed")?.text)?;
    file["dynamics"] = json!({ "engine_inertia": -1.0 });
    let path =
        std::env::temp_dir().join(format!("levertrain-dynamics-{}.json", std::process::id()));
    std::fs::write(&path, file.to_string())?;
    page::open(View::LAPTOP, "", |page| {
        page.open_file(&path)?;
        open(page)?;
        let told: String = page.get(
            "probe.one('[data-part=timed-faulty]').textContent",
            Value::Null,
        )?;
        ensure!(told.contains("dynamics.engine_inertia"), "{told}");
        Ok(())
    })?;
    std::fs::remove_file(&path)?;
    Ok(())
}

/// Catches commands that are lost with an edit that does not change what is shifted, such as that of a tooth count.
#[test]
fn an_edit_leaves_what_is_commanded() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        open(page)?;
        page.run("probe.one('[data-part=timed-J-0]').focus()", Value::Null)?;
        page.keys([Key::Left; 5])?;
        page.rest()?;
        let at = time_of(page, "timed-J-0")?;
        let before = figures(page)?;
        editing::open_form(page)?;
        editing::set(page, "teeth p2 0", "53")?;
        page.rest()?;
        ensure!(
            time_of(page, "timed-J-0")? == at,
            "{}",
            time_of(page, "timed-J-0")?
        );
        ensure!(figures(page)? != before, "the figures stay");
        Ok(())
    })
}

/// Catches a change of the timing that cannot be taken back, one that is taken back in pieces, keys in the panel that undo the
/// train instead, and a table of members that goes on telling the steady speeds.
#[test]
fn changes_of_the_timing_are_taken_back() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        open(page)?;
        let at = time_of(page, "timed-J-0")?;
        let can = |page: &Page| -> Result<bool> {
            page.get(
                "probe.one('[data-part=timed-undo]').getAttribute('aria-disabled') === 'false'",
                Value::Null,
            )
        };
        ensure!(!can(page)?, "nothing has changed yet");
        into_view(page, "[data-part=timed-J-0]")?;
        let (x, y) = middle(page, "[data-part=timed-J-0]")?;
        page.gesture(
            Device::Mouse,
            &[(x, y), (x - 10.0, y), (x - 20.0, y), (x - 40.0, y)],
        )?;
        page.rest()?;
        let dragged = time_of(page, "timed-J-0")?;
        ensure!(dragged < at - 0.01 && can(page)?, "{dragged}");
        page.run("probe.one('[data-part=timed-J-1]').focus()", Value::Null)?;
        page.keys([Key::Right; 4])?;
        page.rest()?;
        let end = time_of(page, "timed-J-1")?;
        // Four keys in a row are one change, the drag is another.
        page.chord(Key::Control, 'z')?;
        page.rest()?;
        ensure!(time_of(page, "timed-J-1")? < end && time_of(page, "timed-J-0")? == dragged);
        page.click("[data-part=timed-undo]")?;
        page.rest()?;
        ensure!(time_of(page, "timed-J-0")? == at && !can(page)?);
        // The hottest is told in words.
        let told: String = page.get("probe.text('[data-part=timed-phases]')", Value::Null)?;
        ensure!(told.contains("most heat in Clutch K"), "{told}");
        // While an instant is shown, members have the speeds of it.
        let input = |page: &Page| -> Result<String> {
            page.get(
                "probe.one('[data-part=members] tr[data-shaft-id=in]').children[1].textContent",
                Value::Null,
            )
        };
        let steady = input(page)?;
        page.click("[data-part=timed-on-stage]")?;
        page.click("[data-part=timed-play]")?;
        page.rest()?;
        ensure!(page.shows("[data-part=members-moment]")? && input(page)? != steady);
        page.click("[data-part=timed-back]")?;
        page.rest()?;
        ensure!(!page.shows("[data-part=members-moment]")? && input(page)? == steady);
        Ok(())
    })
}
