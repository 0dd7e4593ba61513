package sheet

import (
	"context"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/chromedp"
	"gonum.org/v1/plot/vg"
)

// browser returns a headless browser, which may talk to nobody, and what it complains of.
func browser(t *testing.T) (context.Context, *complaints) {
	t.Helper()
	if testing.Short() {
		t.Skip("a browser takes long")
	}
	var path string
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if p, err := exec.LookPath(name); err == nil {
			path = p
			break
		}
	}
	if path == "" {
		t.Skip("no chromium here: what the page looks like is not tested")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()),
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	ctx, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, cancel := chromedp.NewContext(ctx)
	t.Cleanup(func() {
		// Ends the browser before its folder is cleared away.
		_ = chromedp.Cancel(ctx)
		cancel()
	})
	ctx, late := context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(late)
	complaints := new(complaints)
	err := chromedp.Listen(ctx, func(event any) {
		if e, ok := event.(*log.EventEntryAdded); ok {
			complaints.add(e.Entry.Text)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return ctx, complaints
}

// complaints are what a browser says of a page, such as that it may not run a script.
type complaints struct {
	sync.Mutex
	texts []string
}

func (c *complaints) add(text string) {
	c.Lock()
	defer c.Unlock()
	c.texts = append(c.texts, text)
}

func (c *complaints) take() []string {
	c.Lock()
	defer c.Unlock()
	texts := c.texts
	c.texts = nil
	return texts
}

// ask returns what an expression is worth in the page.
func ask[T any](t *testing.T, ctx context.Context, expression string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// look makes the page as wide as a medium.
func look(t *testing.T, ctx context.Context, media string, width int64) {
	t.Helper()
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 800)); err != nil {
		t.Fatal(err)
	}
}

// beyond lists what reaches out of its page or, in a table or a form, out of its box. What
// is in a box that scrolls may, on a screen.
const beyond = `(() => {
	const out = [];
	const print = matchMedia('print').matches;
	for (const section of document.querySelectorAll('section.page')) {
		const box = section.getBoundingClientRect();
		for (const e of section.querySelectorAll('*')) {
			if (e.closest('svg') !== null && e.tagName !== 'svg') continue;
			if (!print && e.closest('.scroll') !== null && !e.matches('.scroll')) continue;
			const r = e.getBoundingClientRect();
			if (r.left < box.left - 0.6 || r.right > box.right + 0.6)
				out.push(e.tagName + ' ' + r.left + '..' + r.right + ' of ' + box.left + '..' + box.right + ' ' + e.textContent.slice(0, 30));
			else if (print && e.matches('td, th, dt, dd') && e.scrollWidth > e.clientWidth + 1)
				out.push(e.tagName + ' holds ' + e.scrollWidth + ' in ' + e.clientWidth + ' ' + e.textContent.slice(0, 30));
		}
	}
	return out;
})()`

const (
	wider   = `document.documentElement.scrollWidth - document.documentElement.clientWidth`
	heights = `[...document.querySelectorAll('section.page')].map(s => s.getBoundingClientRect().height)`
	pixel   = 25.4 / 96 // mm
)

// looks are the ways in which a page is looked at.
func looks(size Paper) map[string]struct {
	width int64
	media string
} {
	w, _ := size.Size()
	inner := int64(math.Round((w - 2*Margin).Points() / mm / pixel))
	return map[string]struct {
		width int64
		media string
	}{"a phone": {360, "screen"}, "paper's width": {inner, "screen"}, "a desk": {1280, "screen"}, "print": {inner, "print"}}
}

func TestInABrowser(t *testing.T) {
	ctx, complaints := browser(t)
	documents := map[string]*Document{
		"sample": sample(A4), "sample on Letter": sample(Letter), "empty": {}, "200 rows": {Title: "long", Pages: []Page{{points(200)}}},
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
			if err := chromedp.Do(ctx, chromedp.Navigate("file://"+path)); err != nil {
				t.Fatal(err)
			}
			for name, l := range looks(d.Size) {
				look(t, ctx, l.media, l.width)
				if over := ask[float64](t, ctx, wider); over > 0 {
					t.Errorf("%s: the page is %g pixels too wide", name, over)
				}
				if out := ask[[]string](t, ctx, beyond); len(out) > 0 {
					t.Errorf("%s: beyond its box: %q", name, out)
				}
			}
			if strings.HasPrefix(name, "sample") {
				oneSheetEach(t, ctx, d)
			}
			// The PDF cuts what fills whole sheets, a browser drops lines without letters.
			_, strange := odd[name]
			printed(t, ctx, d, !strange && name != "markup")
			if texts := complaints.take(); len(texts) > 0 {
				t.Errorf("the browser says %q", texts)
			}
		})
	}
}

// oneSheetEach checks that no page is higher than a sheet.
func oneSheetEach(t *testing.T, ctx context.Context, d *Document) {
	t.Helper()
	l := looks(d.Size)["print"]
	look(t, ctx, l.media, l.width)
	_, h := d.Size.Size()
	for i, got := range ask[[]float64](t, ctx, heights) {
		t.Logf("page %d is %.1f mm high", i+1, got*pixel)
		if got *= pixel; got > (h-2*Margin).Points()/mm {
			t.Errorf("page %d is %.1f mm high", i+1, got)
		}
	}
}

var boxes = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)

// printed prints and compares with the PDF of the package.
func printed(t *testing.T, ctx context.Context, d *Document, compare bool) {
	t.Helper()
	look(t, ctx, "", 1280)
	data, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatal(err)
	}
	want, err := d.PageCount()
	if err != nil {
		t.Fatal(err)
	}
	spread := want / 10 // a long table may have a row more or less on a sheet
	if got := sheets(data); compare && (got < want-spread || got > want+spread) {
		t.Errorf("%d sheets, expected %d", got, want)
	}
	box := boxes.FindSubmatch(data)
	if box == nil {
		t.Fatal("no size of a sheet in the PDF")
	}
	w, h := d.Size.Size()
	for i, side := range []vg.Length{w, h} {
		if got, err := strconv.ParseFloat(string(box[i+1]), 64); err != nil || math.Abs(got-side.Points()) > 1 {
			t.Errorf("a side of the sheet is %g points, expected %g", got, side.Points())
		}
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
