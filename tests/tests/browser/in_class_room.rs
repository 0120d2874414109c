//! In class: the back row reads all of it, it has room, and nobody is shut out.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_tests::browser::{Key, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::accessibility::check_as_it_is;
use crate::by_hand::{self, FIRST};
use crate::in_class::{WATCH_LETTERS, begin};
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
