//! In class: full screen, large letters, one key for the next range or step, and what is hidden hidden from all.

use anyhow::{Context, Result, ensure};
use levertrain_core::lesson::WalkReport;
use levertrain_tests::browser::{Device, Key, Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, Range, SECOND, THIRD};

pub const SHOWN: &str = "probe.one('[data-part=class]')?.open \
    && probe.one('[data-class-drawing=section]').width > 0";

/// Notes how large the letters of every canvas are on the page, before its own scripts draw any.
pub const WATCH_LETTERS: &str = "window.letters = []; \
    const write = CanvasRenderingContext2D.prototype.fillText; \
    CanvasRenderingContext2D.prototype.fillText = function (text, ...rest) { \
        const size = parseFloat(this.font.match(/([0-9.]+)px/)[1]); \
        letters.push([text, size * this.canvas.offsetWidth / this.canvas.width, this.canvas.dataset.classDrawing]); \
        return write.call(this, text, ...rest); \
    }";

pub fn begin(page: &Page) -> Result<()> {
    page.run("probe.one('[data-part=class-begin]').click()", Value::Null)?;
    begun(page)
}

fn begun(page: &Page) -> Result<()> {
    page.until("it is shown", SHOWN)?;
    page.rest()
}

pub fn text(page: &Page, part: &str) -> Result<String> {
    page.get("probe.text(`[data-part=${args}]`)", json!(part))
}

pub fn drawings(page: &Page) -> Result<[String; 2]> {
    page.rest()?;
    page.get(
        "['section', 'lever'].map((name) => probe.hash(probe.one(`[data-class-drawing=${name}]`)))",
        Value::Null,
    )
}

fn shows(page: &Page, range: Range) -> Result<()> {
    page.rest()?;
    let answer = text(page, "class-answer")?;
    ensure!(answer == range.ratio, "{answer}, not {}", range.ratio);
    Ok(())
}

/// Catches keys of a presenter's remote that do nothing, a page behind that is not as it was, and a focus that is lost.
#[test]
fn one_key_goes_through_the_ranges_and_all_is_as_before() -> Result<()> {
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        let before = page.seen()?;
        page.run("probe.one('[data-part=class-begin]').focus()", Value::Null)?;
        page.keys([Key::F8])?;
        begun(page)?;
        shows(page, FIRST)?;
        for (key, range) in [
            (Key::PageDown, SECOND),
            (Key::Right, THIRD),
            (Key::PageUp, SECOND),
            (Key::Space, THIRD),
            (Key::Left, SECOND),
            (Key::PageUp, FIRST),
        ] {
            page.keys([key])?;
            shows(page, range)?;
        }
        // A button that is pressed by hand leaves Space to the next range.
        page.click("[data-part=class-next]")?;
        shows(page, SECOND)?;
        page.keys([Key::Space])?;
        shows(page, THIRD)?;
        page.keys(['1'])?;
        shows(page, FIRST)?;
        page.keys([Key::Escape])?;
        page.until("it has ended", "!probe.one('[data-part=class]')")?;
        let after = page.seen()?;
        ensure!(after == before, "{before:?}\n{after:?}");
        let focus: String = page.get(
            "probe.host('lever-train').shadowRoot.activeElement.dataset.part",
            Value::Null,
        )?;
        ensure!(focus == "class-begin", "{focus}");
        ensure!(
            page.get::<bool>("document.fullscreenElement === null", Value::Null)?,
            "the screen stays filled"
        );
        Ok(())
    })
}

/// Catches what is hidden from the eye and read out all the same, and speeds that stay in a drawing.
#[test]
fn what_is_hidden_is_not_there_at_all() -> Result<()> {
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        page.run(WATCH_LETTERS, Value::Null)?;
        begin(page)?;
        let before = drawings(page)?;
        let all = || -> Result<String> {
            page.until(
                "what is shown is told",
                "probe.text('[data-part=class-status]') !== ''",
            )?;
            page.get(
                "['top', 'line'].map((name) => probe.text(`.class-${name}`)).join(' ')",
                Value::Null,
            )
        };
        let words = "Clutch J joins";
        ensure!(all()?.contains("2.706") && all()?.contains("forward"));
        ensure!(all()?.contains(words), "{}", all()?);
        page.keys(['r', 'w', 'n'])?;
        page.until(
            "it is told without",
            "probe.text('[data-part=class-status]').includes('Ratio hidden')",
        )?;
        let after = format!("{} {}", all()?, text(page, "class-status")?);
        for part in ["2.706", "forward", words] {
            ensure!(!after.contains(part), "{part} is in {after}");
        }
        ensure!(text(page, "class-answer")?.starts_with('?'));
        let hidden = drawings(page)?;
        ensure!(
            hidden[0] != before[0] && hidden[1] != before[1],
            "as before"
        );
        page.run("letters.length = 0", Value::Null)?;
        page.keys([Key::PageDown])?;
        page.rest()?;
        // Second is 437/221: the output turns at 506 of 1000 rev/min.
        let drawn: Vec<(String, f64, String)> = page.get("letters", Value::Null)?;
        let is_number = |text: &str| {
            text.chars()
                .all(|c| c.is_ascii_digit() || "−.,".contains(c))
        };
        let speeds: Vec<_> = drawn.iter().filter(|(text, ..)| is_number(text)).collect();
        ensure!(speeds.is_empty(), "{speeds:?}");
        ensure!(drawn.iter().any(|(text, ..)| text == "?"), "{drawn:?}");
        // A member that is pointed at is named, with no speed.
        page.keys([Key::Down])?;
        let line = text(page, "class-line")?;
        ensure!(
            line.contains('?') && !line.contains(char::is_numeric) || line.starts_with("Sun 1"),
            "{line}"
        );
        page.keys([Key::Up])?;

        page.keys([Key::PageUp])?;
        page.keys(['a'])?;
        page.rest()?;
        ensure!(all()?.contains("2.706") && all()?.contains(words));
        ensure!(drawings(page)? == before, "not all is shown again");
        Ok(())
    })
}

/// Catches a ratio that is hidden and can be read from a speed, the words or a step, in first and in direct drive.
#[test]
fn nothing_gives_a_hidden_ratio_away() -> Result<()> {
    const NUMBERS: &str = "(() => { const text = ['top', 'line'].map((name) => probe.text(`.class-${name}`)).join(' ') \
        + ` ${probe.text('[data-part=class-status]')}`; return [...text.matchAll(/\\d+[.,/]\\d+/g)].map(String); })()";
    let is_number = |text: &str| {
        text.chars()
            .all(|c| c.is_ascii_digit() || "−.,".contains(c))
    };
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        begin(page)?;
        page.keys(['r', 's'])?;
        page.run(WATCH_LETTERS, Value::Null)?;
        let mut steps = 0;
        while text(page, "class-range")? == "1st" {
            page.rest()?;
            let found: Vec<String> = page.get(NUMBERS, Value::Null)?;
            ensure!(
                found.is_empty(),
                "{found:?} in {}",
                text(page, "class-line")?
            );
            page.keys([Key::PageDown])?;
            steps += 1;
        }
        ensure!(steps > 4, "{steps} steps");
        let drawn: Vec<(String, f64, String)> = page.get("letters", Value::Null)?;
        ensure!(drawn.len() > 20, "{drawn:?}");
        let speeds: Vec<_> = drawn.iter().filter(|(text, ..)| is_number(text)).collect();
        ensure!(speeds.is_empty(), "{speeds:?}");
        // Names keep their numbers.
        ensure!(text(page, "class-line")?.contains('1'));
        page.goto("index.html#s=01-one-set")?;
        page.run("probe.host('lever-train').range = 'direct'", Value::Null)?;
        begin(page)?;
        page.keys(['r'])?;
        page.rest()?;
        let top = page.get::<String>("probe.text('.class-top')", Value::Null)?;
        ensure!(!top.contains("as fast"), "{top}");
        let line = text(page, "class-line")?;
        ensure!(line.starts_with('?'), "{line}");
        Ok(())
    })
}

/// Catches steps that are not those of the core, and a walk that does not go on to the next range.
#[test]
fn steps_go_through_the_walk_and_on_to_the_next_range() -> Result<()> {
    let train = by_hand::train()?;
    let applied = train
        .element_set(FIRST.applied)
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let walk = WalkReport::of(&train.solve(applied));
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        begin(page)?;
        page.keys(['s'])?;
        let dark = drawings(page)?;
        for (at, step) in walk.steps.iter().enumerate() {
            // A long one comes in parts.
            let head = format!("Step {} of {}: ", at + 1, walk.steps.len());
            let mut said: Vec<String> = Vec::new();
            loop {
                page.keys([Key::PageDown])?;
                ensure!(drawings(page)? != dark, "step {at} lights nothing");
                let line = text(page, "class-line")?;
                let part = line.strip_prefix(&head).with_context(|| line.clone())?;
                let goes_on = part.strip_suffix(" …");
                said.push(goes_on.unwrap_or(part).to_owned());
                if goes_on.is_none() {
                    break;
                }
            }
            ensure!(said.join(" ") == step.sentences.join(" "), "{said:?}");
        }
        page.keys([Key::PageDown])?;
        shows(page, SECOND)?;
        page.keys([Key::PageUp])?;
        shows(page, FIRST)?;
        ensure!(drawings(page)? == dark, "the light stays");
        Ok(())
    })
}

/// Catches packs that cannot be dragged or pressed in class, or that are not where they are drawn.
#[test]
fn clutches_are_dragged_and_pressed_as_ever() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        begin(page)?;
        let middle = "(() => { const { x, y, width, height } = probe.one( \
            `[data-part=class] [data-element-id=${args}]`).getBoundingClientRect(); \
            return [x + width / 2, y + height / 2]; })()";
        let (x, y): (f64, f64) = page.get(middle, json!("W"))?;
        page.gesture(Device::Mouse, &[(x, y), (x, y + 20.0), (x, y + 60.0)])?;
        page.rest()?;
        ensure!(
            text(page, "class-answer")?.contains("Neutral"),
            "{}",
            text(page, "class-answer")?
        );
        let place: (f64, f64) = page.get(middle, json!("V"))?;
        page.gesture(Device::Touch, &[place])?;
        shows(page, THIRD)?;
        // Another one of the range before, by keys.
        page.run(
            "probe.one('[data-part=class] [data-element-id=V]').focus()",
            Value::Null,
        )?;
        page.keys([Key::Space])?;
        page.rest()?;
        ensure!(text(page, "class-answer")?.contains("Neutral"));
        Ok(())
    })
}

/// Catches a view that shows what an element leaves out.
#[test]
fn an_element_that_leaves_something_out_offers_no_more_in_class() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        ensure!(page.shows("[data-part=class-begin]")?);
        page.run(
            "probe.host('lever-train').setAttribute('views', 'section')",
            Value::Null,
        )?;
        page.until(
            "it is not offered",
            "!probe.one('[data-part=class-begin]').checkVisibility()",
        )?;
        page.keys([Key::F8])?;
        page.rest()?;
        ensure!(
            page.get::<bool>("!probe.one('[data-part=class]')", Value::Null)?,
            "it is shown"
        );
        Ok(())
    })
}

/// Catches a view that is not offered, or stays, while a question asks for what it shows.
#[test]
fn nothing_is_shown_while_a_question_is_open() -> Result<()> {
    page::open(View::LAPTOP, "#s=01-one-set", |page| {
        page.unfold("exercises")?;
        page.until(
            "its own sheet is offered",
            "!probe.one('[data-part=exercise-sheet]').hidden",
        )?;
        page.click("[data-part=exercise-sheet]")?;
        page.until("it asks", "probe.one('.exercise-asked')")?;
        ensure!(page.get::<bool>("probe.one('[data-part=class-begin]').disabled", Value::Null)?);
        page.keys([Key::F8])?;
        page.rest()?;
        ensure!(
            page.get::<bool>("!probe.one('[data-part=class]')", Value::Null)?,
            "it is shown"
        );
        Ok(())
    })
}
