//! A scene as SVG text: the printed sheet, and a drawing that can be checked without a browser.

use core::fmt::Write as _;

use crate::ink::{Fill, Ink, Stroke, colour};
use crate::scene::{Anchor, Backing, Label, Scene, Shape, Weight};
use crate::view::{Scheme, Screen};

/// The typefaces of the sheet: whatever the system reads best in.
pub const TYPEFACE: &str = "system-ui, -apple-system, 'Segoe UI', Roboto, 'DejaVu Sans', sans-serif";
/// From the middle of a line of text down to its baseline, as a share of its size.
pub const BASELINE: f64 = 0.35;

/// A scene of this size in CSS pixels as a whole SVG file.
#[must_use]
pub fn svg(scene: &Scene, width: f64, height: f64, scheme: Scheme) -> String {
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" \
         font-family=\"{TYPEFACE}\" style=\"font-variant-numeric: tabular-nums\">\n",
        w = Px(width),
        h = Px(height),
    );
    for shape in &scene.0 {
        write(&mut out, shape, scheme);
    }
    out.push_str("</svg>\n");
    out
}

/// A number of pixels with two decimals at most.
struct Px(f64);

impl core::fmt::Display for Px {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        // Adding zero turns a negative zero into zero.
        let rounded = (self.0 * 100.0).round() / 100.0 + 0.0;
        write!(f, "{rounded}")
    }
}

fn write(out: &mut String, shape: &Shape, scheme: Scheme) {
    // Writing to a String cannot fail.
    let _ = match shape {
        Shape::Lines { pieces, stroke } => {
            let mut d = String::new();
            for [a, b] in pieces {
                let _ = write!(d, "M{} {}L{} {}", Px(a.x), Px(a.y), Px(b.x), Px(b.y));
            }
            writeln!(out, "<path d=\"{d}\" fill=\"none\"{}/>", stroked(Some(*stroke), scheme))
        }
        Shape::Path { points, closed, fill, stroke } => {
            let tag = if *closed { "polygon" } else { "polyline" };
            let list: Vec<String> = points.iter().map(|p| format!("{},{}", Px(p.x), Px(p.y))).collect();
            let (fill, stroke) = (filled(*fill, scheme), stroked(*stroke, scheme));
            writeln!(out, "<{tag} points=\"{}\"{fill}{stroke}/>", list.join(" "))
        }
        Shape::Circle { at, radius, fill, stroke } => {
            let (fill, stroke) = (filled(*fill, scheme), stroked(*stroke, scheme));
            let (x, y, r) = (Px(at.x), Px(at.y), Px(*radius));
            writeln!(out, "<circle cx=\"{x}\" cy=\"{y}\" r=\"{r}\"{fill}{stroke}/>")
        }
        Shape::Label(label) => writeln!(out, "{}", text(label, scheme)),
    };
}

fn filled(fill: Option<Fill>, scheme: Scheme) -> String {
    fill.map_or_else(
        || " fill=\"none\"".to_owned(),
        |fill| format!(" fill=\"{}\"{}", colour(fill.ink, scheme), opacity("fill", fill.strength)),
    )
}

fn stroked(stroke: Option<Stroke>, scheme: Scheme) -> String {
    let Some(stroke) = stroke else {
        return String::new();
    };
    let dash: Vec<String> = stroke.dash.lengths().iter().map(|length| Px(*length).to_string()).collect();
    let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dash.join(" ")) };
    let (ink, width, strength) = (colour(stroke.ink, scheme), Px(stroke.width), opacity("stroke", stroke.strength));
    format!(" stroke=\"{ink}\" stroke-width=\"{width}\"{strength}{dash}")
}

fn opacity(of: &str, strength: f64) -> String {
    if strength < 1.0 { format!(" {of}-opacity=\"{}\"", Px(strength)) } else { String::new() }
}

fn text(label: &Label, scheme: Scheme) -> String {
    let Screen { x, y } = label.at;
    let (ux, uy) = label.along;
    let down = label.size * BASELINE;
    let place = if uy == 0.0 && ux > 0.0 {
        format!("x=\"{}\" y=\"{}\"", Px(x), Px(y + down))
    } else {
        let (a, b) = ((ux * 1e4).round() / 1e4, (uy * 1e4).round() / 1e4);
        format!("transform=\"matrix({a} {b} {} {a} {} {})\" y=\"{}\"", -b, Px(x), Px(y), Px(down))
    };
    let anchor = match label.anchor {
        Anchor::Start => "",
        Anchor::Middle => " text-anchor=\"middle\"",
        Anchor::End => " text-anchor=\"end\"",
    };
    let weight = if label.weight == Weight::Strong { " font-weight=\"700\"" } else { "" };
    let halo = match label.backing {
        Backing::Bare => String::new(),
        Backing::Halo => format!(
            " stroke=\"{}\" stroke-width=\"3\" stroke-linejoin=\"round\" paint-order=\"stroke\"",
            colour(Ink::Paper, scheme)
        ),
    };
    let (ink, size, words) = (colour(label.ink, scheme), Px(label.size), escaped(&label.text));
    format!("<text {place} font-size=\"{size}\"{anchor}{weight} fill=\"{ink}\"{halo}>{words}</text>")
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML 1.0 holds no other control characters; a name typed by hand may.
            c if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use expect_test::expect;

    use super::*;
    use crate::ink::{Dash, THIN};

    fn label(text: &str, along: (f64, f64)) -> Shape {
        Shape::Label(Label {
            at: Screen { x: 10.0, y: 20.0 },
            text: text.to_owned(),
            ink: Ink::Words,
            size: 12.0,
            weight: Weight::Plain,
            anchor: Anchor::Middle,
            along,
            backing: Backing::Bare,
        })
    }

    #[test]
    fn a_name_with_marks_of_its_own_stays_text() {
        let text = svg(&Scene(vec![label("<b>\"A\" & B\u{0}", (1.0, 0.0))]), 100.0, 50.0, Scheme::Paper);
        assert!(text.contains("&lt;b&gt;&quot;A&quot; &amp; B </text>"), "{text}");
    }

    #[test]
    fn every_shape_is_written_with_its_place_and_ink() {
        let at = |x, y| Screen { x, y };
        let stroke = Stroke::new(Ink::Dimension, THIN).dash(Dash::Hidden);
        let shapes = vec![
            Shape::Lines { pieces: vec![[at(0.0, 1.0), at(2.345, 3.0)]], stroke },
            Shape::Path {
                points: vec![at(0.0, 0.0), at(4.0, 0.0), at(4.0, 3.0)],
                closed: true,
                fill: Some(Fill::wash(Ink::Gap, 0.25)),
                stroke: None,
            },
            Shape::Circle { at: at(5.0, 5.0), radius: 2.5, fill: None, stroke: Some(Stroke::new(Ink::Gap, 2.0)) },
            label("24' 0\"", (0.0, -1.0)),
        ];
        let text = svg(&Scene(shapes), 100.0, 50.0, Scheme::Print);
        let body: String = text.lines().skip(1).map(|line| format!("{line}\n")).collect();
        expect![[r##"
            <path d="M0 1L2.35 3" fill="none" stroke="#000000" stroke-width="1" stroke-dasharray="3 3"/>
            <polygon points="0,0 4,0 4,3" fill="#000000" fill-opacity="0.25"/>
            <circle cx="5" cy="5" r="2.5" fill="none" stroke="#000000" stroke-width="2"/>
            <text transform="matrix(0 -1 1 0 10 20)" y="4.2" font-size="12" text-anchor="middle" fill="#000000">24' 0&quot;</text>
            </svg>
        "##]].assert_eq(&body);
    }
}
