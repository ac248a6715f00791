//! A renderer in plain code, so that window tests need no graphics card and no system package.
//!
//! It does what egui's shaders do: vertex color times texture, both premultiplied and in gamma space, blended over the existing
//! pixels. A triangle is cut into one span per row; pixels belong to it if their center does, and a center on an edge belongs
//! to the right or lower neighbor, so that triangles with a common edge leave neither a gap nor an overlap. Spans of one color
//! skip all arithmetic, which keeps unoptimized builds fast.

use std::collections::BTreeMap;

use egui::epaint::{ClippedPrimitive, ImageData, ImageDelta, Mesh, Primitive, Vertex};
use egui::{Color32, ColorImage, Pos2, Rect, TextureFilter, TextureId, TexturesDelta};
use egui_kittest::TestRenderer;
use image::RgbaImage;

/// A renderer for `HarnessBuilder::renderer(Soft::default())`.
#[derive(Default)]
pub struct Soft {
    textures: BTreeMap<TextureId, Texture>,
}

impl TestRenderer for Soft {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        for (id, changes) in delta.set.drain() {
            for change in changes {
                self.change(id, &change);
            }
        }
        for id in delta.free.drain() {
            self.textures.remove(&id);
        }
    }

    fn render(
        &mut self,
        ctx: &egui::Context,
        output: &egui::FullOutput,
    ) -> Result<RgbaImage, String> {
        let scale = ctx.pixels_per_point();
        let size = ctx.content_rect().size() * scale;
        let mut canvas = Canvas::new(size.x.round() as usize, size.y.round() as usize);
        for primitive in ctx.tessellate(output.shapes.clone(), scale) {
            self.draw(&mut canvas, &primitive, scale)?;
        }
        let (width, height) = (canvas.width as u32, canvas.height as u32);
        RgbaImage::from_raw(width, height, canvas.pixels.into_flattened())
            .ok_or_else(|| format!("{width} x {height} pixels do not fit the picture"))
    }
}

impl Soft {
    fn change(&mut self, id: TextureId, change: &ImageDelta) {
        let ImageData::Color(new) = &change.image;
        let smooth = change.options.magnification == TextureFilter::Linear;
        let old = self.textures.get_mut(&id);
        if let (Some([left, top]), Some(Texture { image, .. })) = (change.pos, old) {
            let rows = new.pixels.chunks(new.size[0].max(1));
            for (row, line) in rows.enumerate() {
                let start = (top + row) * image.size[0] + left;
                if let Some(part) = image.pixels.get_mut(start..start + line.len()) {
                    part.copy_from_slice(line);
                }
            }
        } else {
            let image = ColorImage::clone(new);
            self.textures.insert(id, Texture { image, smooth });
        }
    }

    fn draw(
        &self,
        canvas: &mut Canvas,
        primitive: &ClippedPrimitive,
        scale: f32,
    ) -> Result<(), String> {
        let Primitive::Mesh(mesh) = &primitive.primitive else {
            return Err("a paint callback needs a graphics card".to_owned());
        };
        let texture = self.textures.get(&mesh.texture_id);
        let texture = texture.ok_or_else(|| format!("no texture {:?}", mesh.texture_id))?;
        canvas.clip = canvas.pixels_within(primitive.clip_rect * scale);
        for corners in triangles(mesh) {
            canvas.triangle(&corners.map(|vertex| at_scale(vertex, scale)), texture);
        }
        Ok(())
    }
}

fn triangles(mesh: &Mesh) -> impl Iterator<Item = [Vertex; 3]> {
    mesh.indices.chunks_exact(3).filter_map(|corners| {
        let vertex = |corner: u32| mesh.vertices.get(corner as usize).copied();
        Some([
            vertex(corners[0])?,
            vertex(corners[1])?,
            vertex(corners[2])?,
        ])
    })
}

fn at_scale(vertex: Vertex, scale: f32) -> Vertex {
    let pos = vertex.pos * scale;
    Vertex { pos, ..vertex }
}

/// A picture with which triangles are painted.
struct Texture {
    image: ColorImage,
    smooth: bool,
}

impl Texture {
    /// The color, 0 to 1 per channel, at a position given as shares of width and height.
    fn color_at(&self, u: f32, v: f32) -> [f32; 4] {
        let [width, height] = self.image.size;
        let (x, y) = (u * width as f32, v * height as f32);
        if !self.smooth {
            return unit_channels(self.texel(x.floor(), y.floor()));
        }
        let (x, y) = (x - 0.5, y - 0.5);
        let (left, top) = (x.floor(), y.floor());
        let upper = [self.texel(left, top), self.texel(left + 1.0, top)];
        let lower = [
            self.texel(left, top + 1.0),
            self.texel(left + 1.0, top + 1.0),
        ];
        if upper == lower && upper[0] == upper[1] {
            return unit_channels(upper[0]);
        }
        let rows = [upper, lower].map(|[a, b]| mix(unit_channels(a), unit_channels(b), x - left));
        mix(rows[0], rows[1], y - top)
    }

    /// One texel; positions outside use the nearest one.
    fn texel(&self, x: f32, y: f32) -> Color32 {
        let [width, height] = self.image.size;
        let x = (x.max(0.0) as usize).min(width.saturating_sub(1));
        let y = (y.max(0.0) as usize).min(height.saturating_sub(1));
        let texel = self.image.pixels.get(y * width + x);
        texel.copied().unwrap_or_default()
    }
}

fn unit_channels(color: Color32) -> [f32; 4] {
    color.to_array().map(|channel| f32::from(channel) / 255.0)
}

fn mix(a: [f32; 4], b: [f32; 4], share: f32) -> [f32; 4] {
    [0, 1, 2, 3].map(|channel| a[channel] + (b[channel] - a[channel]) * share)
}

/// The pixels of the drawing, premultiplied, and the current clip rectangle.
struct Canvas {
    width: usize,
    height: usize,
    pixels: Vec<[u8; 4]>,
    clip: Clip,
}

#[derive(Default)]
struct Clip {
    left: usize,
    top: usize,
    right: usize,
    bottom: usize,
}

impl Canvas {
    fn new(width: usize, height: usize) -> Self {
        let (pixels, clip) = (vec![[0; 4]; width * height], Clip::default());
        Self {
            width,
            height,
            pixels,
            clip,
        }
    }

    fn pixels_within(&self, rect: Rect) -> Clip {
        Clip {
            left: (rect.min.x.round().max(0.0) as usize).min(self.width),
            top: (rect.min.y.round().max(0.0) as usize).min(self.height),
            right: (rect.max.x.round().max(0.0) as usize).min(self.width),
            bottom: (rect.max.y.round().max(0.0) as usize).min(self.height),
        }
    }

    fn triangle(&mut self, corners: &[Vertex; 3], texture: &Texture) {
        let Some(paint) = Paint::new(corners, texture) else {
            return;
        };
        let ys = corners.map(|corner| corner.pos.y);
        let low = ys[0].min(ys[1]).min(ys[2]);
        let high = ys[0].max(ys[1]).max(ys[2]);
        let first = first_center(low).max(self.clip.top);
        let end = first_center(high).min(self.clip.bottom);
        for row in first..end {
            let (left, right) = span(corners, row as f32 + 0.5);
            let left = first_center(left).max(self.clip.left);
            let right = first_center(right).min(self.clip.right);
            let start = row * self.width;
            if left < right
                && let Some(pixels) = self.pixels.get_mut(start + left..start + right)
            {
                paint.fill(pixels, Pos2::new(left as f32 + 0.5, row as f32 + 0.5));
            }
        }
    }
}

/// The first pixel whose center is not before a position.
fn first_center(place: f32) -> usize {
    (place - 0.5).ceil().max(0.0) as usize
}

/// The positions where a row enters and leaves a triangle; from infinity back to minus infinity if it misses.
fn span(corners: &[Vertex; 3], y: f32) -> (f32, f32) {
    let mut span = (f32::INFINITY, f32::NEG_INFINITY);
    for (one, other) in [(0, 1), (1, 2), (2, 0)] {
        let (one, other) = (corners[one].pos, corners[other].pos);
        // Always downward, so that both triangles of an edge find exactly the same crossing.
        let (upper, lower) = if one.y < other.y {
            (one, other)
        } else {
            (other, one)
        };
        if upper.y <= y && y < lower.y {
            let x = upper.x + (y - upper.y) * (lower.x - upper.x) / (lower.y - upper.y);
            span = (span.0.min(x), span.1.max(x));
        }
    }
    span
}

/// The fill of a triangle.
enum Paint<'a> {
    Plain([f32; 4]),
    Varying {
        texture: &'a Texture,
        color: [Plane; 4],
        place: [Plane; 2],
    },
}

impl<'a> Paint<'a> {
    /// The fill of a triangle; `None` if the triangle has no area.
    fn new(corners: &[Vertex; 3], texture: &'a Texture) -> Option<Self> {
        let [a, b, c] = corners;
        if a.color == b.color && a.color == c.color && a.uv == b.uv && a.uv == c.uv {
            let (vertex, texel) = (unit_channels(a.color), texture.color_at(a.uv.x, a.uv.y));
            return Some(Self::Plain(product(vertex, texel)));
        }
        let slopes = Slopes::new(corners)?;
        let colors = corners.map(|corner| unit_channels(corner.color));
        let color = [0, 1, 2, 3].map(|channel| slopes.plane(colors.map(|color| color[channel])));
        let place = [
            slopes.plane(corners.map(|corner| corner.uv.x)),
            slopes.plane(corners.map(|corner| corner.uv.y)),
        ];
        Some(Self::Varying {
            texture,
            color,
            place,
        })
    }

    /// Paints consecutive pixels, given the center of the first.
    fn fill(&self, pixels: &mut [[u8; 4]], first: Pos2) {
        match self {
            Self::Plain(color) if color[3] >= 1.0 => pixels.fill(blend([0; 4], *color)),
            Self::Plain(color) => {
                for pixel in pixels {
                    *pixel = blend(*pixel, *color);
                }
            }
            Self::Varying {
                texture,
                color,
                place,
            } => {
                let mut at = first;
                for pixel in pixels {
                    let [u, v] = [place[0].at(at), place[1].at(at)];
                    let vertex = [
                        color[0].at(at),
                        color[1].at(at),
                        color[2].at(at),
                        color[3].at(at),
                    ];
                    *pixel = blend(*pixel, product(vertex, texture.color_at(u, v)));
                    at.x += 1.0;
                }
            }
        }
    }
}

fn product(a: [f32; 4], b: [f32; 4]) -> [f32; 4] {
    [a[0] * b[0], a[1] * b[1], a[2] * b[2], a[3] * b[3]]
}

fn blend(below: [u8; 4], above: [f32; 4]) -> [u8; 4] {
    let through = 1.0 - above[3];
    let channel = |channel: usize| {
        let sum = above[channel] * 255.0 + f32::from(below[channel]) * through;
        (sum + 0.5) as u8
    };
    [channel(0), channel(1), channel(2), channel(3)]
}

/// The shape of a triangle, prepared for interpolating values from its corners.
struct Slopes {
    origin: Pos2,
    ab: egui::Vec2,
    ac: egui::Vec2,
    area: f32,
}

impl Slopes {
    fn new(corners: &[Vertex; 3]) -> Option<Self> {
        let [a, b, c] = corners;
        let (ab, ac) = (b.pos - a.pos, c.pos - a.pos);
        let area = ab.x * ac.y - ab.y * ac.x;
        let origin = a.pos;
        (area.abs() > 0.0).then_some(Self {
            origin,
            ab,
            ac,
            area,
        })
    }

    fn plane(&self, [a, b, c]: [f32; 3]) -> Plane {
        let (ab, ac) = (b - a, c - a);
        Plane {
            origin: self.origin,
            value: a,
            per_x: (ab * self.ac.y - ac * self.ab.y) / self.area,
            per_y: (ac * self.ab.x - ab * self.ac.x) / self.area,
            least: a.min(b).min(c),
            most: a.max(b).max(c),
        }
    }
}

/// A value that changes linearly over a triangle.
struct Plane {
    origin: Pos2,
    value: f32,
    per_x: f32,
    per_y: f32,
    least: f32,
    most: f32,
}

impl Plane {
    /// The value at a point; without the limits, very thin triangles would overshoot.
    fn at(&self, at: Pos2) -> f32 {
        let value =
            self.value + self.per_x * (at.x - self.origin.x) + self.per_y * (at.y - self.origin.y);
        value.max(self.least).min(self.most)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::{FontData, FontDefinitions, FontFamily, FontId, Sense, Shape, Stroke, pos2, vec2};
    use egui_kittest::Harness;
    use std::sync::Arc;

    const SIZE: f32 = 64.0;

    /// The picture that a painter leaves on a white square of 64 x 64 pixels.
    fn picture(scale: f32, paint: impl Fn(&egui::Painter) + 'static) -> RgbaImage {
        let mut harness = Harness::builder()
            .with_size([SIZE, SIZE])
            .with_pixels_per_point(scale)
            .with_render_cursor(false)
            .renderer(Soft::default())
            .build_ui(move |ui| {
                let mut fonts = FontDefinitions::empty();
                let bytes = include_bytes!("../../../assets/fonts/Inter-Regular.ttf");
                let font = Arc::new(FontData::from_static(bytes));
                fonts.font_data.insert("test".to_owned(), font);
                for family in [FontFamily::Proportional, FontFamily::Monospace] {
                    fonts.families.insert(family, vec!["test".to_owned()]);
                }
                ui.set_fonts(fonts);
                let painter = ui.ctx().layer_painter(egui::LayerId::background());
                painter.rect_filled(Rect::EVERYTHING, 0.0, Color32::WHITE);
                paint(&painter);
                ui.allocate_exact_size(vec2(1.0, 1.0), Sense::hover());
            });
        harness.run_steps(2);
        harness.render().unwrap()
    }

    fn darkness(image: &RgbaImage) -> f64 {
        let dark = image.pixels().map(|pixel| 255.0 - f64::from(pixel.0[1]));
        dark.sum::<f64>() / 255.0
    }

    #[test]
    fn a_rectangle_fills_exactly_its_pixels() {
        let square = Rect::from_min_max(pos2(10.0, 20.0), pos2(30.0, 50.0));
        let image = picture(1.0, move |painter| {
            let mut mesh = Mesh::default();
            mesh.add_colored_rect(square, Color32::BLACK);
            painter.add(Shape::mesh(mesh));
        });
        crate::assert_near!(darkness(&image), 600.0, 1e-9);
        assert_eq!(image.get_pixel(10, 20).0, [0, 0, 0, 255]);
        assert_eq!(image.get_pixel(29, 49).0, [0, 0, 0, 255]);
        assert_eq!(image.get_pixel(30, 49).0, [255; 4]);
        assert_eq!(image.get_pixel(29, 19).0, [255; 4]);
    }

    #[test]
    fn see_through_colors_are_blended_once_on_a_common_edge() {
        let half = Color32::from_rgba_premultiplied(0, 0, 0, 128);
        let image = picture(1.0, move |painter| {
            let mut mesh = Mesh::default();
            let square = Rect::from_min_max(pos2(3.3, 7.1), pos2(55.7, 58.2));
            mesh.add_colored_rect(square, half);
            painter.add(Shape::mesh(mesh));
        });
        for y in 10..55 {
            for x in 10..50 {
                assert_eq!(image.get_pixel(x, y).0, [127, 127, 127, 255], "at {x}, {y}");
            }
        }
    }

    #[test]
    fn a_disc_has_its_area_at_each_scale() {
        for scale in [1.0, 2.0] {
            let image = picture(scale, |painter| {
                painter.circle_filled(pos2(32.0, 32.0), 20.0, Color32::BLACK);
            });
            let area = core::f64::consts::PI * 400.0 * f64::from(scale * scale);
            crate::assert_near!(darkness(&image), area, 0.01 * area);
        }
    }

    #[test]
    fn nothing_is_drawn_outside_the_clip_rectangle() {
        let image = picture(1.0, |painter| {
            let window = Rect::from_min_max(pos2(0.0, 0.0), pos2(32.0, 16.0));
            let line = [pos2(0.0, 8.0), pos2(64.0, 8.0)];
            let clipped = painter.with_clip_rect(window);
            clipped.line_segment(line, Stroke::new(4.0, Color32::BLACK));
        });
        assert_eq!(image.get_pixel(31, 8).0, [0, 0, 0, 255]);
        assert_eq!(image.get_pixel(32, 8).0, [255; 4]);
    }

    #[test]
    fn words_leave_ink_at_their_position() {
        let image = picture(1.0, |painter| {
            let font = FontId::proportional(30.0);
            let anchor = egui::Align2::CENTER_CENTER;
            painter.text(pos2(32.0, 32.0), anchor, "88", font, Color32::BLACK);
        });
        let ink = darkness(&image);
        assert!((100.0..600.0).contains(&ink), "{ink} pixels of ink");
        assert_eq!(image.get_pixel(2, 2).0, [255; 4]);
    }
}
