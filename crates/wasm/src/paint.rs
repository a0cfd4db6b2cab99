//! A scene put onto a canvas. Decides nothing: what is drawn is the scene's business.

use wasm_bindgen::JsValue;
use web_sys::CanvasRenderingContext2d;

use crate::ink::{Dash, Fill, Ink, Stroke, colour};
use crate::scene::{Anchor, Backing, Label, Scene, Shape, Weight};
use crate::svg::{BASELINE, TYPEFACE};
use crate::view::{Scheme, Screen, View};

/// Paints a scene. The backing store has `view.dpr` pixels for each CSS pixel; the canvas's own calls that fail (they
/// do so only for numbers that are none) leave their shape out.
pub fn paint(ctx: &CanvasRenderingContext2d, scene: &Scene, view: &View, scheme: Scheme) {
    level(ctx, view);
    ctx.clear_rect(0.0, 0.0, view.width, view.height);
    ctx.set_line_cap("butt");
    ctx.set_line_join("miter");
    for shape in &scene.0 {
        match shape {
            Shape::Lines { pieces, stroke } => {
                ctx.begin_path();
                for [a, b] in pieces {
                    ctx.move_to(a.x, a.y);
                    ctx.line_to(b.x, b.y);
                }
                draw(ctx, None, Some(*stroke), scheme);
            }
            Shape::Path { points, closed, fill, stroke } => {
                trail(ctx, points);
                if *closed {
                    ctx.close_path();
                }
                draw(ctx, *fill, *stroke, scheme);
            }
            Shape::Circle { at, radius, fill, stroke } => {
                ctx.begin_path();
                if ctx.arc(at.x, at.y, *radius, 0.0, core::f64::consts::TAU).is_ok() {
                    draw(ctx, *fill, *stroke, scheme);
                }
            }
            Shape::Label(label) => write(ctx, label, view, scheme),
        }
    }
}

fn level(ctx: &CanvasRenderingContext2d, view: &View) {
    let _ = ctx.set_transform(view.dpr, 0.0, 0.0, view.dpr, 0.0, 0.0);
}

fn trail(ctx: &CanvasRenderingContext2d, points: &[Screen]) {
    ctx.begin_path();
    let mut points = points.iter();
    if let Some(first) = points.next() {
        ctx.move_to(first.x, first.y);
    }
    for next in points {
        ctx.line_to(next.x, next.y);
    }
}

fn draw(ctx: &CanvasRenderingContext2d, fill: Option<Fill>, stroke: Option<Stroke>, scheme: Scheme) {
    if let Some(fill) = fill {
        ctx.set_global_alpha(fill.strength);
        ctx.set_fill_style_str(colour(fill.ink, scheme));
        ctx.fill();
    }
    if let Some(stroke) = stroke {
        ctx.set_global_alpha(stroke.strength);
        ctx.set_stroke_style_str(colour(stroke.ink, scheme));
        ctx.set_line_width(stroke.width);
        broken(ctx, stroke.dash);
        ctx.stroke();
    }
    ctx.set_global_alpha(1.0);
}

fn broken(ctx: &CanvasRenderingContext2d, dash: Dash) {
    let lengths: js_sys::Array = dash.lengths().iter().map(|length| JsValue::from_f64(*length)).collect();
    let _ = ctx.set_line_dash(&lengths);
}

fn write(ctx: &CanvasRenderingContext2d, label: &Label, view: &View, scheme: Scheme) {
    let (ux, uy) = label.along;
    let k = view.dpr;
    let _ = ctx.set_transform(k * ux, k * uy, -k * uy, k * ux, k * label.at.x, k * label.at.y);
    let weight = if label.weight == Weight::Strong { "700 " } else { "" };
    ctx.set_font(&format!("{weight}{}px {TYPEFACE}", label.size));
    ctx.set_text_align(match label.anchor {
        Anchor::Start => "left",
        Anchor::Middle => "center",
        Anchor::End => "right",
    });
    let down = label.size * BASELINE;
    if label.backing == Backing::Halo {
        ctx.set_stroke_style_str(colour(Ink::Paper, scheme));
        ctx.set_line_width(3.0);
        ctx.set_line_join("round");
        broken(ctx, Dash::Solid);
        let _ = ctx.stroke_text(&label.text, 0.0, down);
        ctx.set_line_join("miter");
    }
    ctx.set_fill_style_str(colour(label.ink, scheme));
    let _ = ctx.fill_text(&label.text, 0.0, down);
    level(ctx, view);
}
