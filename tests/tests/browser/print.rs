//! What comes out of a printer.

use anyhow::{Result, ensure};
use fantoccini::wd::PrintSize;
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::language;

/// Trains of every width and number of ranges.
pub const STEMS: [&str; 4] = [
    "01-one-set",
    "02-three-speed-common-sun",
    "05-eight-speed-four-sets",
    "09-six-speed-front-set",
];

pub const PAPERS: [PrintSize; 2] = [PrintSize::A4, PrintSize::US_LETTER];

/// How many sheets a PDF has: an object each. What holds them all is of the type `Pages`.
pub fn sheets(pdf: &[u8]) -> usize {
    const SHEET: &[u8] = b"/Type /Page";
    let here = |at: usize| pdf[at..].starts_with(SHEET) && pdf.get(at + SHEET.len()) != Some(&b's');
    (0..pdf.len()).filter(|&at| here(at)).count()
}

/// Catches drawings and long names of ranges that push the tables to a second sheet.
#[test]
fn the_page_as_it_opens_is_one_sheet() -> Result<()> {
    for view in [View::LAPTOP, View::PHONE.dark()] {
        page::open(view, &by_hand::link(FIRST), |page| {
            check_sheets(page, "English")?;
            language::speak_german(page)?;
            check_sheets(page, "German")
        })?;
    }
    Ok(())
}

/// All that can be applied at once, of which most is said.
const ALL_APPLIED: &str = "01-one-set&on=V,W,X,H,J,K,L,M,N";

fn check_sheets(page: &Page, language: &str) -> Result<()> {
    for stem in STEMS.into_iter().chain([ALL_APPLIED]) {
        page.goto(&format!("index.html#s={stem}"))?;
        // A phone has them folded.
        for panel in ["chart", "members"] {
            page.unfold(panel)?;
        }
        for paper in PAPERS {
            let sheets = sheets(&page.print(paper.clone())?);
            ensure!(
                sheets == 1,
                "{stem} in {language} on {paper:?}: {sheets} sheets"
            );
        }
    }
    Ok(())
}

/// What shows of each of these while the page is laid out for paper.
pub fn showing(page: &Page, selector: &str) -> Result<Vec<String>> {
    page.get(
        "probe.all(args).filter((node) => node.checkVisibility()).map((node) => node.textContent)",
        json!(selector),
    )
}

/// Catches headings with nothing under them, controls that cannot be pressed on paper, reasons that
/// are cut off, and a tinted ground under the page or the drawings, also where the screen is dark.
#[test]
fn paper_is_white_and_shows_no_controls() -> Result<()> {
    for view in [View::LAPTOP.dark(), View::PHONE] {
        page::open(view, &by_hand::link(FIRST), |page| {
            page.unfold("members")?;
            page.unfold("losses")?;
            page.lay_out_for_paper(true)?;
            page.run("dispatchEvent(new Event('beforeprint'))", Value::Null)?;

            let folded = showing(page, "details:not([open])")?;
            ensure!(folded.is_empty(), "{folded:?}");
            let unfolded = showing(page, "details[open]")?;
            ensure!(unfolded.len() >= 2, "{unfolded:?}");
            // The names in tables can be pressed on the screen; on paper they are names.
            let pressed = showing(page, "button:not(th button), input:not([type=number])")?;
            ensure!(pressed.is_empty(), "{pressed:?}");
            let said = showing(page, "[data-part=sentences] p")?;
            let all: Vec<String> = page.get(
                "probe.all('[data-part=sentences] p').map((node) => node.textContent)",
                Value::Null,
            )?;
            ensure!(said == all, "{said:?}");
            let cut: bool = page.get(
                "probe.all('[data-part=sentences] p').some((node) => node.scrollHeight > node.clientHeight + 1)",
                Value::Null,
            )?;
            ensure!(!cut, "a reason is cut off");

            let grounds: Vec<String> = page.get(
                "[document.documentElement, probe.one('.ground')] \
                    .map((node) => getComputedStyle(node).backgroundColor)",
                Value::Null,
            )?;
            ensure!(
                grounds.iter().all(|colour| colour == "rgb(255, 255, 255)"),
                "{grounds:?}"
            );
            let corners: Vec<Vec<u8>> = page.get(
                "['section', 'lever'].map((name) => [...probe.one(`canvas[data-drawing=${name}]`) \
                    .getContext('2d').getImageData(1, 1, 1, 1).data])",
                Value::Null,
            )?;
            ensure!(
                corners.iter().all(|corner| corner == &[255; 4]),
                "{corners:?}"
            );

            page.run("dispatchEvent(new Event('afterprint'))", Value::Null)?;
            page.lay_out_for_paper(false)
        })?;
    }
    Ok(())
}

/// Catches drawings that are printed so small that their letters cannot be read, while half of the sheet is empty, on a screen of
/// any width.
#[test]
fn letters_in_drawings_can_be_read_on_paper() -> Result<()> {
    /// In points, and in CSS pixels as they are drawn.
    const LEAST: f64 = 6.5;
    const DRAWN: f64 = 12.0;
    const POINTS: f64 = 0.75;
    // As high as letter paper is between its margins: a window has no other sheet.
    for width in [390, 724, 1920] {
        let sheet = View {
            width,
            height: 995,
            ..View::LAPTOP
        };
        page::open(sheet, &by_hand::link(FIRST), |page| {
            for stem in ["02-three-speed-common-sun", "12-axle-differential"] {
                page.goto(&format!("index.html#s={stem}"))?;
                for panel in ["chart", "members"] {
                    page.unfold(panel)?;
                }
                page.lay_out_for_paper(true)?;
                page.run("dispatchEvent(new Event('beforeprint'))", Value::Null)?;
                // Of a sheet as wide as paper, whatever the window is.
                let scale: f64 = page.get(
                    "(probe.one('.levertrain').style.width = '724px', probe.one('.sheet').getBoundingClientRect().width \
                        / (parseFloat(probe.one('.sheet').style.width) / Number(probe.one('.stage').dataset.zoom)))",
                    Value::Null,
                )?;
                let points = scale * DRAWN * POINTS;
                ensure!(
                    points >= LEAST,
                    "{stem} from a window {width} wide: {points} pt"
                );
                page.run("dispatchEvent(new Event('afterprint'))", Value::Null)?;
                page.lay_out_for_paper(false)?;
            }
            Ok(())
        })?;
    }
    Ok(())
}
