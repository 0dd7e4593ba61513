package ink

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"

	"codeberg.org/go-pdf/fpdf"
	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// A page is a canvas on a rectangle of the current page of a document in points.
type page struct {
	pose
	doc           *fpdf.Fpdf
	width, height vg.Length
	now           pen
	below         []pen
}

// A pen is how a canvas draws.
type pen struct {
	color  color.Color
	width  vg.Length
	dashes []vg.Length
	offset vg.Length
}

// On returns a canvas of a size on the current page of a document of [NewDocument],
// its top left corner so far from that of the page.
func On(doc *fpdf.Fpdf, left, top, width, height vg.Length) vg.CanvasSizer {
	c := &page{doc: doc, width: width, height: height}
	c.pose.now = affine{a: 1, d: -1, e: left.Points(), f: (top + height).Points()}
	vg.Initialize(c)
	return c
}

// Size implements vg.CanvasSizer.
func (c *page) Size() (x, y vg.Length) { return c.width, c.height }

func (c *page) SetLineWidth(w vg.Length) { c.now.width = w }

func (c *page) SetLineDash(dashes []vg.Length, offset vg.Length) {
	c.now.dashes, c.now.offset = dashes, offset
}

func (c *page) SetColor(clr color.Color) {
	if clr == nil {
		clr = color.Black
	}
	c.now.color = clr
}

func (c *page) Push() {
	c.push()
	c.below = append(c.below, c.now)
}

func (c *page) Pop() {
	c.pop()
	c.now = c.below[len(c.below)-1]
	c.below = c.below[:len(c.below)-1]
}

// dip takes the pen to the document.
func (c *page) dip() {
	n := color.NRGBAModel.Convert(c.now.color).(color.NRGBA)
	r, g, b := int(n.R), int(n.G), int(n.B)
	c.doc.SetDrawColor(r, g, b)
	c.doc.SetFillColor(r, g, b)
	c.doc.SetTextColor(r, g, b)
	c.doc.SetAlpha(float64(n.A)/255, "Normal")
	scale := c.pose.now.scale()
	c.doc.SetLineWidth(c.now.width.Points() * scale)
	dashes := make([]float64, len(c.now.dashes))
	for i, d := range c.now.dashes {
		dashes[i] = d.Points() * scale
	}
	c.doc.SetDashPattern(dashes, c.now.offset.Points()*scale)
}

func (c *page) Stroke(p vg.Path) {
	if c.now.width > 0 {
		c.dip()
		c.path(p, "D")
	}
}

func (c *page) Fill(p vg.Path) {
	c.dip()
	c.path(p, "F")
}

// at returns where a point lies on the page.
func (c *page) at(p vg.Point) (x, y float64) {
	q := c.pose.now.of(p)
	return q.X.Points(), q.Y.Points()
}

func (c *page) path(p vg.Path, style string) {
	begun := false
	move := func(q vg.Point) {
		x, y := c.at(q)
		c.doc.MoveTo(x, y)
		begun = true
	}
	line := func(q vg.Point) {
		if !begun {
			move(q)
			return
		}
		c.doc.LineTo(c.at(q))
	}
	for _, comp := range unarced(p) {
		switch comp.Type {
		case vg.MoveComp:
			move(comp.Pos)
		case vg.LineComp:
			line(comp.Pos)
		case vg.CurveComp:
			c.curve(comp)
		case vg.CloseComp:
			c.doc.ClosePath()
		}
	}
	c.doc.DrawPath(style)
}

func (c *page) curve(comp vg.PathComp) {
	x, y := c.at(comp.Pos)
	x0, y0 := c.at(comp.Control[0])
	if len(comp.Control) == 1 {
		c.doc.CurveTo(x0, y0, x, y)
		return
	}
	x1, y1 := c.at(comp.Control[1])
	c.doc.CurveBezierCubicTo(x0, y0, x1, y1, x, y)
}

func (c *page) FillString(f font.Face, at vg.Point, text string) {
	if f.Font.Size <= 0 {
		return
	}
	c.dip()
	text = Legible(text)
	style := ""
	if f.Font.Weight >= xfont.WeightSemiBold {
		style = "B"
	}
	c.doc.SetFont(Face, style, f.Font.Size.Points()*c.pose.now.scale())
	x, y := c.at(at)
	// The page counts y down: what turns to the left there turns to the right here.
	turn := -c.pose.now.turn() * 180 / math.Pi
	if math.Abs(turn) < 1e-9 {
		c.doc.Text(x, y, text)
		return
	}
	c.doc.TransformBegin()
	c.doc.TransformRotate(turn, x, y)
	c.doc.Text(x, y, text)
	c.doc.TransformEnd()
}

// DrawImage implements vg.Canvas.
func (c *page) DrawImage(rect vg.Rectangle, img image.Image) {
	var buf bytes.Buffer
	if err := png.Encode(&buf, img); err != nil {
		c.doc.SetError(err)
		return
	}
	// The same picture has the same name, wherever it is drawn.
	name := fmt.Sprintf("%x", sha256.Sum256(buf.Bytes()))
	options := fpdf.ImageOptions{ImageType: "png"}
	c.doc.RegisterImageOptionsReader(name, options, &buf)
	x, y := c.at(vg.Point{X: rect.Min.X, Y: rect.Max.Y})
	size := rect.Size()
	c.doc.ImageOptions(name, x, y, size.X.Points()*c.pose.now.scale(), size.Y.Points()*c.pose.now.scale(), false, options, 0, "")
}
