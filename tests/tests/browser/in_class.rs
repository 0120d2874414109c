//! In class: full screen, large letters, one key for the next range or step, and what is hidden hidden from all.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::lesson::WalkReport;
use levertrain_tests::browser::{Device, Key, Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::accessibility::check_as_it_is;
use crate::by_hand::{self, FIRST, Range, SECOND, THIRD};
use crate::language;

/// A projector of the usual sizes, with the smallest letters that the back row reads on it.
const ROOMS: [(View, f64); 3] = [
    (size(1024, 768), 20.0),
    (size(1280, 720), 20.0),
    (size(1920, 1080), 28.0),
];

const fn size(width: u32, height: u32) -> View {
    View {
        width,
        height,
        ..View::LAPTOP.still()
    }
}

const SHOWN: &str = "probe.one('[data-part=class]')?.open \
    && probe.one('[data-class-drawing=section]').width > 0";

/// Notes how large the letters of every canvas are on the page, before its own scripts draw any.
const WATCH_LETTERS: &str = "window.letters = []; \
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

fn text(page: &Page, part: &str) -> Result<String> {
    page.get("probe.text(`[data-part=${args}]`)", json!(part))
}

fn drawings(page: &Page) -> Result<[String; 2]> {
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

/// Catches a member that goes dark once the pointer is moved away, and one that cannot be let go by hand or key.
#[test]
fn a_click_keeps_a_member_lit() -> Result<()> {
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        page.run(WATCH_NODES, Value::Null)?;
        begin(page)?;
        let dark = drawings(page)?;
        let place: (f64, f64) = page.get(NODE, json!("S"))?;
        let lit = |how: &str, expected: bool| -> Result<()> {
            let now = drawings(page)?;
            ensure!((now != dark) == expected, "lit: {} {how}", !expected);
            Ok(())
        };
        page.gesture(Device::Mouse, &[place])?;
        page.point_away()?;
        lit("after a click", true)?;
        page.gesture(Device::Mouse, &[place])?;
        page.point_away()?;
        lit("after another", false)?;
        page.gesture(Device::Mouse, &[place])?;
        page.point_away()?;
        page.keys([Key::Escape])?;
        lit("after Escape", false)?;
        ensure!(page.get::<bool>(SHOWN, Value::Null)?, "Escape ends it");
        page.keys([Key::Down, Key::Enter])?;
        page.point_at(place)?;
        page.point_away()?;
        lit("by Enter", true)?;
        page.keys([Key::Enter])?;
        lit("by Enter again", false)?;
        page.keys([Key::Escape])?;
        page.until("it has ended", "!probe.one('[data-part=class]')")
    })
}

/// Catches a reason why nothing turns of which a part is out of sight.
#[test]
fn a_tie_up_is_read_whole() -> Result<()> {
    page::open(ROOMS[0].0, "#s=05-eight-speed-four-sets", |page| {
        language::speak_german(page)?;
        begin(page)?;
        page.run(
            "const switches = probe.all('[data-part=class] [role=switch]'); \
             probe.host('lever-train').apply(switches.map(({ dataset }) => dataset.elementId))",
            Value::Null,
        )?;
        page.rest()?;
        let line = "probe.one('[data-part=class-line]')";
        let out: f64 = page.get(
            &format!("{line}.scrollHeight - {line}.clientHeight"),
            Value::Null,
        )?;
        ensure!(out <= 0.0, "{out} px are out of sight");
        let edge: f64 = page.get(
            &format!("probe.one('[data-part=class-stage]').getBoundingClientRect().bottom - {line}.getBoundingClientRect().top"),
            Value::Null,
        )?;
        ensure!(edge <= 0.5, "the stage lies over {edge} px of it");
        let words = format!(
            "(() => {{ const range = document.createRange(); range.selectNodeContents({line}); \
            return {line}.getBoundingClientRect().top - range.getBoundingClientRect().top; }})()"
        );
        let above: f64 = page.get(&words, Value::Null)?;
        ensure!(above <= 0.5, "{above} px of the words are above their line");
        Ok(())
    })
}

/// Catches letters that the back row cannot read, in the drawings too, and a window that must be scrolled.
#[test]
fn the_back_row_reads_every_letter_of_every_train() -> Result<()> {
    const SMALL: &str = "(() => { \
        const inside = (node) => node.nodeType === 3 ? [node] : [...node.childNodes].flatMap(inside); \
        const words = inside(probe.one('[data-part=class]')).filter((node) => node.textContent.trim() \
            && !node.parentElement.closest('.unseen') && node.parentElement.checkVisibility()); \
        const small = words.filter((node) => parseFloat(getComputedStyle(node.parentElement).fontSize) < args - 0.01); \
        return [words.length, small.map((node) => node.textContent)]; \
    })()";
    const SCROLLS: &str = "(() => { \
        const view = probe.one('[data-part=class]'); \
        const out = probe.all('[data-part=class] button').filter((node) => { \
            const { left, right, bottom } = node.getBoundingClientRect(); \
            return left < 0 || right > innerWidth || bottom > innerHeight; \
        }); \
        return [view.scrollHeight - view.clientHeight, view.scrollWidth - view.clientWidth, out.length]; \
    })()";
    page::open(ROOMS[0].0, "", |page| {
        for german in [false, true] {
            if german {
                page.goto("index.html")?;
                language::speak_german(page)?;
            }
            // Where words are longer, it is the smallest that has no room for them.
            let rooms = if german { &ROOMS[..1] } else { &ROOMS[..] };
            for &(view, least) in rooms {
                page.change_view(view)?;
                page.goto("index.html")?;
                page.run(WATCH_LETTERS, Value::Null)?;
                for file in files::scenarios()? {
                    page.turn_to(&file.stem)?;
                    page.run("letters.length = 0", Value::Null)?;
                    begin(page)?;
                    let what = format!("{} on {} px, German: {german}", file.stem, view.width);
                    let (words, small): (usize, Vec<String>) = page.get(SMALL, json!(least))?;
                    ensure!(words > 10 && small.is_empty(), "{what}: {small:?}");
                    let [down, across, out]: [f64; 3] = page.get(SCROLLS, Value::Null)?;
                    ensure!(
                        down <= 0.0 && across <= 0.0 && out <= 0.0,
                        "{what}: {down} px, {across} px and {out} buttons too much"
                    );
                    let drawn: Vec<(String, f64, String)> =
                        page.get("letters.filter(([, , name]) => name)", Value::Null)?;
                    ensure!(drawn.len() > 10, "{what}: {drawn:?}");
                    let small: Vec<_> = drawn
                        .iter()
                        .filter(|(_, size, _)| *size < least - 0.6)
                        .collect();
                    ensure!(small.is_empty(), "{what}: {small:?}");
                    page.keys([Key::Escape])?;
                    page.until("it has ended", "!probe.one('[data-part=class]')")?;
                }
            }
        }
        Ok(())
    })
}

/// Catches a range whose names take so much height that the drawings have less than the tests of their letters ask for
/// (`web/src/document/far_tests.rs`), in the language of the longer words.
#[test]
fn the_drawings_keep_their_room_in_every_range() -> Result<()> {
    const LEAST: f64 = 550.0;
    page::open(ROOMS[0].0, "", |page| {
        language::speak_german(page)?;
        let mut seen = 0;
        for file in files::scenarios()? {
            page.goto(&format!("index.html#s={}", file.stem))?;
            begin(page)?;
            page.keys(['s'])?;
            let train = Train::parse(&file.text);
            let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
            for _ in 0..train.scenario().ranges.len() {
                page.rest()?;
                let (range, high): (String, f64) = page.get(
                    "[probe.text('[data-part=class-range]'), probe.one('[data-part=class-stage]').clientHeight]",
                    Value::Null,
                )?;
                ensure!(high >= LEAST, "{}, {range}: {high} px", file.stem);
                seen += 1;
                // Steps come first: back from none of them is the range before.
                page.keys([Key::PageUp])?;
            }
        }
        ensure!(seen > 60, "{seen}");
        Ok(())
    })
}

/// The middle of the first node of the levers that is told by its letter.
const NODE: &str = "(() => { \
    const canvas = probe.one('[data-class-drawing=lever]'); \
    const { left, top } = canvas.getBoundingClientRect(); \
    const [, , x, y] = nodes.find(([name]) => name === args); \
    const scale = canvas.offsetWidth / canvas.width; \
    return [left + x * scale, top + y * scale]; \
})()";
const WATCH_NODES: &str = "window.nodes = []; \
    const write = CanvasRenderingContext2D.prototype.fillText; \
    CanvasRenderingContext2D.prototype.fillText = function (text, x, y, ...rest) { \
        if (this.canvas.dataset.classDrawing === 'lever') nodes.push([text, 0, x, y]); \
        return write.call(this, text, x, y, ...rest); \
    }";

/// Catches a member that lights in one drawing only or is not named, by mouse, finger or keys.
#[test]
fn pointing_at_a_member_lights_it_in_both_and_names_it() -> Result<()> {
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        page.run(WATCH_NODES, Value::Null)?;
        begin(page)?;
        let dark = drawings(page)?;
        let lit = |page: &Page, how: &str| -> Result<()> {
            let now = drawings(page)?;
            ensure!(now[0] != dark[0], "nothing in the half-section by {how}");
            ensure!(now[1] != dark[1], "nothing in the levers by {how}");
            let line = text(page, "class-line")?;
            ensure!(line.starts_with("Sun 1"), "{line} by {how}");
            Ok(())
        };
        let place: (f64, f64) = page.get(NODE, json!("S"))?;
        page.point_at(place)?;
        lit(page, "mouse")?;
        page.point_away()?;
        ensure!(drawings(page)? == dark, "it stays lit");
        page.gesture(Device::Touch, &[place])?;
        lit(page, "finger")?;
        // By keys from one member to the next, and after the last to none.
        let train = by_hand::train()?;
        let shafts = &train.scenario().shafts;
        let first = shafts.iter().position(|shaft| shaft.label == "Sun 1");
        for shaft in &shafts[first.map_or(0, |at| at + 1)..] {
            page.keys([Key::Down])?;
            let line = text(page, "class-line")?;
            ensure!(line.starts_with(&shaft.label), "{line}");
        }
        page.keys([Key::Down])?;
        ensure!(drawings(page)? == dark, "it stays lit after the last");
        for shaft in shafts {
            page.keys([Key::Down])?;
            let line = text(page, "class-line")?;
            ensure!(line.starts_with(&shaft.label), "{line}");
            if shaft.label == "Sun 1" {
                lit(page, "key")?;
                page.until(
                    "it is told",
                    "probe.text('[data-part=class-status]').startsWith('Sun 1')",
                )?;
            }
        }
        Ok(())
    })
}

/// Catches a step of which a part is out of sight: the words have as many lines as they need.
#[test]
fn the_words_of_every_step_are_in_sight() -> Result<()> {
    const OUT: &str = "(() => { const line = probe.one('[data-part=class-line]'); \
        return [line.textContent, line.scrollHeight - line.clientHeight]; })()";
    page::open(ROOMS[0].0, "", |page| {
        language::speak_german(page)?;
        for stem in ["05-eight-speed-four-sets", "07-three-speed-one-way"] {
            page.goto(&format!("index.html#s={stem}"))?;
            begin(page)?;
            page.keys(['s'])?;
            let first: String = page.get("probe.text('[data-part=class-range]')", Value::Null)?;
            let mut seen = 0;
            while page.get::<String>("probe.text('[data-part=class-range]')", Value::Null)? == first
            {
                page.rest()?;
                let (words, out): (String, f64) = page.get(OUT, Value::Null)?;
                ensure!(out <= 1.0, "{stem}: {out} px of {words}");
                page.keys([Key::PageDown])?;
                seen += 1;
            }
            ensure!(seen > 3, "{seen} steps");
        }
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

/// Catches a phone, and a window zoomed to 200 %, from which something of it cannot be reached.
#[test]
fn all_can_be_reached_on_a_phone_and_zoomed_in() -> Result<()> {
    let zoomed = View {
        width: 512,
        height: 384,
        density: 2.0,
        ..View::LAPTOP
    };
    for view in [View::PHONE, zoomed] {
        page::open(view, &by_hand::link(FIRST), |page| {
            begin(page)?;
            let unseen: Vec<String> = page.get(
                "(() => { \
                    const root = probe.host('lever-train').shadowRoot; \
                    return probe.all('[data-part=class] button, [data-part=class-answer], [data-part=class-line]').filter((node) => { \
                        node.scrollIntoView({ block: 'nearest', behavior: 'instant' }); \
                        const { left, top, width, height } = node.getBoundingClientRect(); \
                        const found = root.elementFromPoint(left + width / 2, top + height / 2); \
                        return !found || !(node.contains(found) || found.contains(node)) || left < 0 || left + width > innerWidth + 1; \
                    }).map((node) => node.dataset.part ?? node.dataset.elementId); \
                })()",
                Value::Null,
            )?;
            ensure!(unseen.is_empty(), "{unseen:?} on {} px", view.width);
            let wide: f64 = page.get(
                "probe.one('[data-part=class]').scrollWidth - probe.one('[data-part=class]').clientWidth",
                Value::Null,
            )?;
            ensure!(wide <= 0.0, "{wide} px too wide");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches missing names, faint letters and wrong roles, in both languages, light and dark, with parts hidden and a member
/// pointed at.
#[test]
fn no_fault_in_class() -> Result<()> {
    for view in [View::LAPTOP, View::LAPTOP.dark(), View::PHONE] {
        page::open(view, &by_hand::link(FIRST), |page| {
            page.lift_security_policy()?;
            for german in [false, true] {
                page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
                if german {
                    language::speak_german(page)?;
                }
                begin(page)?;
                let rules = ["color-contrast", "button-name", "role-img-alt"];
                check_as_it_is(page, "as it begins", &rules)?;
                page.keys(['w', Key::Down.into()])?;
                check_as_it_is(page, "with a part hidden, and a member lit", &rules)?;
                page.keys(['s', Key::PageDown.into()])?;
                check_as_it_is(page, "in a step", &rules)?;
                page.keys([Key::Escape])?;
                page.until("it has ended", "!probe.one('[data-part=class]')")?;
            }
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches a button that does not look pressed in forced colours, drawings in colours that are not those forced, and
/// drawings that glide or turn where the system asks for little motion.
#[test]
fn forced_colours_and_little_motion_are_heeded() -> Result<()> {
    page::open(View::LAPTOP.forced(), &by_hand::link(FIRST), |page| {
        begin(page)?;
        let ground = "(() => { const canvas = probe.one('[data-class-drawing=section]'); \
            return [...canvas.getContext('2d').getImageData(1, 1, 1, 1).data]; })()";
        let white: [u8; 4] = page.get(ground, Value::Null)?;
        ensure!(white == [255; 4], "{white:?}");
        let looks = "['class-ranges', 'class-steps'].map((part) => { \
            const style = getComputedStyle(probe.one(`[data-part=${part}]`)); \
            return `${style.backgroundColor} ${style.borderTopColor}`; })";
        let [pressed, other]: [String; 2] = page.get(looks, Value::Null)?;
        ensure!(pressed != other, "both {pressed}");
        Ok(())
    })?;
    page::open(View::LAPTOP.still(), &by_hand::link(FIRST), |page| {
        begin(page)?;
        page.run("window.drawn = probe.drawn()", Value::Null)?;
        page.keys([Key::PageDown])?;
        page.rest()?;
        let frames: u32 = page.get("probe.drawn() - window.drawn", Value::Null)?;
        ensure!(frames <= 2, "{frames} frames to the next range");
        Ok(())
    })?;
    // It does glide where nobody minds.
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        begin(page)?;
        page.run("window.drawn = probe.drawn()", Value::Null)?;
        page.keys([Key::PageDown])?;
        page.until("it glides", "probe.drawn() - window.drawn > 3")
    })
}
