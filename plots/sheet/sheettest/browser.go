// Package sheettest opens worksheets in a headless browser, for tests.
package sheettest

import (
	"context"
	"os/exec"
	"regexp"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/chromedp"
)

// A Browser is headless and may talk to nobody.
type Browser struct {
	t   *testing.T
	ctx context.Context
	complaints
}

// Open starts one; the test is skipped where there is none, and in short runs.
func Open(t *testing.T) *Browser {
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
	b := &Browser{t: t, ctx: ctx}
	err := chromedp.Listen(ctx, func(event any) {
		if e, ok := event.(*log.EventEntryAdded); ok {
			b.add(e.Entry.Text)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// For lets another test, such as one of a table, use the browser.
func (b *Browser) For(t *testing.T) { b.t = t }

// Load opens the page of a file.
func (b *Browser) Load(path string) {
	b.t.Helper()
	if err := chromedp.Do(b.ctx, chromedp.Navigate("file://"+path)); err != nil {
		b.t.Fatal(err)
	}
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

// Complaints returns what the browser said since it was asked last.
func (b *Browser) Complaints() []string {
	b.Lock()
	defer b.Unlock()
	texts := b.texts
	b.texts = nil
	return texts
}

// ask returns what an expression is worth in the page.
func ask[T any](b *Browser, expression string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		b.t.Fatal(err)
	}
	return v
}

// Look makes the page so many pixels wide, on a medium: "screen", "print", or "" for none.
func (b *Browser) Look(media string, width int64) {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media}); err != nil {
		b.t.Fatal(err)
	}
	if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 800)); err != nil {
		b.t.Fatal(err)
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
)

// Pixel is one of a page, mm.
const Pixel = 25.4 / 96

// TooWide returns by how many pixels the page is wider than what it is seen in.
func (b *Browser) TooWide() float64 { return ask[float64](b, wider) }

// Beyond returns what reaches out of its page, or out of its box in a table or a form.
func (b *Browser) Beyond() []string { return ask[[]string](b, beyond) }

// Heights returns how high the pages of the sheet are, mm.
func (b *Browser) Heights() []float64 {
	out := ask[[]float64](b, heights)
	for i := range out {
		out[i] *= Pixel
	}
	return out
}

// Print returns the page as the browser prints it.
func (b *Browser) Print() []byte {
	b.t.Helper()
	b.Look("", 1280)
	data, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		b.t.Fatal(err)
	}
	return data
}

var (
	boxes  = regexp.MustCompile(`/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	leaves = regexp.MustCompile(`/Type ?/Page\b`)
)

// Sheets returns how many sheets a PDF takes, and how large they are, points; 0 where it
// does not say.
func Sheets(pdf []byte) (n int, width, height float64) {
	if box := boxes.FindSubmatch(pdf); box != nil {
		width, _ = strconv.ParseFloat(string(box[1]), 64) // digits and points, as matched
		height, _ = strconv.ParseFloat(string(box[2]), 64)
	}
	return len(leaves.FindAll(pdf, -1)), width, height
}
