package sheet

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"floatarc/plots/ink"
	"floatarc/plots/sheet/sheettest"
)

// looks are the ways in which a page is looked at.
func looks(size ink.Paper) map[string]struct {
	width int64
	media string
} {
	w, _ := size.Size()
	inner := int64(math.Round((w - 2*Margin).Points() / mm / sheettest.Pixel))
	return map[string]struct {
		width int64
		media string
	}{"a phone": {360, "screen"}, "paper's width": {inner, "screen"}, "a desk": {1280, "screen"}, "print": {inner, "print"}}
}

func TestInABrowser(t *testing.T) {
	b := sheettest.Open(t)
	documents := map[string]*Document{
		"sample": sample(ink.A4), "sample on Letter": sample(ink.Letter), "empty": {}, "200 rows": {Title: "long", Pages: []Page{{points(200)}}},
		"markup": hostile(`</style><script>alert("1")</script><img src=x onerror=alert(1)>`), "many columns": {Pages: []Page{{wide(14)}}},
	}
	for name, text := range odd {
		documents[name] = hostile(text)
	}
	for name, d := range documents {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "sheet.html")
			if err := os.WriteFile(path, []byte(html(t, d)), 0o600); err != nil {
				t.Fatal(err)
			}
			b.For(t)
			b.Load(path)
			for name, l := range looks(d.paper()) {
				b.Look(l.media, l.width)
				if over := b.TooWide(); over > 0 {
					t.Errorf("%s: the page is %g pixels too wide", name, over)
				}
				if out := b.Beyond(); len(out) > 0 {
					t.Errorf("%s: beyond its box: %q", name, out)
				}
			}
			if strings.HasPrefix(name, "sample") {
				oneSheetEach(t, b, d)
			}
			// The PDF cuts what fills whole sheets, a browser drops lines without letters.
			_, strange := odd[name]
			printed(t, b, d, !strange && name != "markup")
			if texts := b.Complaints(); len(texts) > 0 {
				t.Errorf("the browser says %q", texts)
			}
		})
	}
}

// oneSheetEach checks that no page is higher than a sheet.
func oneSheetEach(t *testing.T, b *sheettest.Browser, d *Document) {
	t.Helper()
	l := looks(d.paper())["print"]
	b.Look(l.media, l.width)
	_, h := d.paper().Size()
	for i, got := range b.Heights() {
		t.Logf("page %d is %.1f mm high", i+1, got)
		if got > (h-2*Margin).Points()/mm {
			t.Errorf("page %d is %.1f mm high", i+1, got)
		}
	}
}

// printed prints and compares with the PDF of the package.
func printed(t *testing.T, b *sheettest.Browser, d *Document, compare bool) {
	t.Helper()
	got, width, height := sheettest.Sheets(b.Print())
	want, err := d.PageCount()
	if err != nil {
		t.Fatal(err)
	}
	spread := want / 10 // a long table may have a row more or less on a sheet
	if compare && (got < want-spread || got > want+spread) {
		t.Errorf("%d sheets, expected %d", got, want)
	}
	w, h := d.paper().Size()
	if math.Abs(width-w.Points()) > 1 || math.Abs(height-h.Points()) > 1 {
		t.Errorf("the sheet is %g by %g points, expected %g by %g", width, height, w.Points(), h.Points())
	}
}

// wide is a table of more columns than there is room for.
func wide(n int) Table {
	var t Table
	row := Row{}
	for range n {
		t.Columns = append(t.Columns, Column{Head: "Resistance", Units: "ohm", Align: Right})
		row.Cells = append(row.Cells, "1234.5678")
	}
	t.Rows = []Row{row, row}
	return t
}
