//! Refusals that could grow without bound: messages stay short, problems stay few.

use crate::sample::{refused, with};

/// However long what a problem quotes, its message stays short and on one line.
#[test]
fn messages_stay_short() {
    let long = "x".repeat(20_000);
    let lines = "a\\nb\\u001b[31m";
    for (name, content) in [("long", long.as_str()), ("lines", lines)] {
        let rows = [
            (
                "name",
                "\"name\":\"Sketch\"",
                format!("\"name\":\"{content}{}\"", "y".repeat(90)),
            ),
            (
                "input",
                "\"input\":\"in\"",
                format!("\"input\":\"{content}\""),
            ),
            ("field", "\"name\"", format!("\"{content}\"")),
            ("field below", "\"teeth\":30", format!("\"{content}\":30")),
            ("kind", "\"planetary\"", format!("\"{content}\"")),
            (
                "kind of element",
                "\"kind\":\"brake\"",
                format!("\"kind\":\"{content}\""),
            ),
            ("mesh", "\"external\"", format!("\"{content}\"")),
            ("teeth", "\"teeth\":30", format!("\"teeth\":\"{content}\"")),
            (
                "format",
                "\"format\":1",
                format!("\"format\":\"{content}\""),
            ),
            (
                "format list",
                "\"format\":1",
                format!("\"format\":[\"{content}\"]"),
            ),
            (
                "kind list",
                "\"kind\":\"planetary\"",
                format!("\"kind\":[\"{content}\"]"),
            ),
            ("shaft id", "\"id\":\"r1\"", format!("\"id\":\"{content}\"")),
            (
                "label",
                "\"label\":\"Shaft r1\"",
                format!("\"label\":\"{content}{}\"", "y".repeat(50)),
            ),
            (
                "carrier",
                "\"carrier\":\"out\"",
                format!("\"carrier\":\"{content}\""),
            ),
            (
                "brake",
                "\"shaft\":\"r1\"",
                format!("\"shaft\":\"{content}\""),
            ),
            (
                "clutch",
                "[\"in\",\"r2\"]",
                format!("[\"{content}\",\"{content}\"]"),
            ),
            ("range", "[\"A\"]", format!("[\"{content}\",\"{content}\"]")),
        ];
        for (place, old, new) in rows {
            refused(&format!("{name} {place}"), &with(old, &new));
        }
    }
}

/// However much is wrong, the list of problems stays short.
#[test]
fn problems_stay_few() {
    let same = vec!["\"A\""; 10_000].join(",");
    refused(
        "an element ten thousand times",
        &with("[\"A\"]", &format!("[{same}]")),
    );
    let unknown = vec!["\"Z\""; 10_000].join(",");
    refused(
        "ten thousand unknown elements",
        &with("[\"A\"]", &format!("[{unknown}]")),
    );
    let range = "{\"id\":\"\",\"label\":\"\",\"applied\":[\"p\",\"q\",\"r\",\"s\",\"t\",\"u\"]}";
    let ranges = [range; 32].join(",");
    refused(
        "nothing right in thirty-two ranges",
        &with("\"ranges\":[", &format!("\"ranges\":[{ranges}],\"x\":["))
            .replace(",\"x\":[{\"applied\":[\"A\"],\"id\":\"1\",\"label\":\"Range 1\"},{\"applied\":[\"C\"],\"id\":\"2\",\"label\":\"Range 2\"}]", ""),
    );
    let many = vec!["7"; 10_000].join(",");
    refused(
        "ten thousand shafts",
        &with("\"shafts\":[", &format!("\"shafts\":[{many},")),
    );
}
