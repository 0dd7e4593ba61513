package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// plotFlags are the flags of the command.
type plotFlags struct {
	output, format string
	force          bool
	att            attitude
	plan           planFlags
	uncertain      uncertainFlags
	size           sizeFlags
}

// A picture is drawn on any canvas.
type picture interface {
	Title() string
	Size() (width, height vg.Length)
	Paint(vg.CanvasSizer)
}

// A pictureKind is a picture that can be asked for.
type pictureKind struct {
	name, shows string
	draw        func(*pictures) (picture, error)
	fullSize    bool // always true to size: to lay a thing on
}

// pictureKinds are all of them, in the order in which they are of use.
var pictureKinds = []pictureKind{
	{"tank", "the tank and its sender to scale, in side and end section", (*pictures).tank, false},
	{"curve", "litres over the angle of the arm", (*pictures).curve, false},
	{"points", "ohms at the terminals over litres, with the points", (*pictures).points, false},
	{"error", "how far the needle lies off: before, at the marks, best", (*pictures).errors, false},
	{"ohm", "litres behind an ohm: where the sender sees little", (*pictures).ohm, false},
	{"reserve", "with how much the low-fuel lamp lights, by attitude", (*pictures).reserve, false},
	{"dial", "true litres at each mark, before and after; with --scale 1:1 a face to lay over the gauge", (*pictures).dial, false},
	{"card", "the arm at each mark at its true size, to hold the sender on", (*pictures).card, true},
}

func newPlot(o *options) *cobra.Command {
	var f plotFlags
	c := &cobra.Command{
		Use:   "plot NAME|all [FILE]",
		Short: "Pictures, as SVG, PNG or PDF",
		Long:  "plot draws a picture of a rig, or all of them. The pictures:\n\n" + pictureNames(),
		Args:  pictureArgs,
		RunE: func(c *cobra.Command, args []string) error {
			if err := f.fits(c, args[0]); err != nil {
				return err
			}
			args, err := f.size.check(c, args)
			if err != nil {
				return err
			}
			if err := f.uncertain.check(c); err != nil {
				return err
			}
			p, err := o.pictures(named(args[1:]), f)
			if err != nil {
				return err
			}
			files, err := p.write(args[0])
			if err != nil {
				return err
			}
			return o.print(c.OutOrStdout(), plotAnswer{files}, files, plotAnswer{files}.write)
		},
		ValidArgsFunction: completePicture,
	}
	flags := c.Flags()
	flags.StringVarP(&f.output, "output", "o", "", "the `FILE` to write, which ends in .svg, .png or .pdf; with all, the folder")
	flags.StringVar(&f.format, "format", string(ink.SVG), "`FORMAT` where no file name tells it: svg, png or pdf")
	flags.BoolVar(&f.force, "force", false, "write over files that exist")
	f.plan.register(c)
	f.uncertain.register(c)
	f.size.register(c)
	f.att.register(c)
	return c
}

// levelOnly are the pictures that show the level ground, or all slopes at once.
var levelOnly = []string{"reserve", "card"}

// fits refuses flags that a picture does not take.
func (f *plotFlags) fits(c *cobra.Command, name string) error {
	tilted := c.Flags().Changed("nose-up") || c.Flags().Changed("left-up")
	switch {
	case tilted && slices.Contains(levelOnly, name):
		return misusef("plot %s: --nose-up, --left-up: not taken, expected them with a picture of one attitude (this one does not hang on it)", name)
	case f.uncertain.asked && name != "error" && name != "all":
		return misusef("plot %s: --uncertain, expected it with error or all", name)
	case c.Flags().Changed("format") && f.output != "" && name != "all":
		if named, err := ink.FormatOf(f.output); err == nil && string(named) != strings.ToLower(f.format) {
			return misusef("plot: --format %s with -o %s, expected one of them", f.format, f.output)
		}
	case c.Flags().Changed("paper") && name != "card" && name != "all" && f.size.scale == "":
		return misusef("plot %s: --paper, expected it with what is true to size: card, or dial --scale %s", name, trueSize)
	}
	return nil
}

func pictureNames() string {
	var b strings.Builder
	for _, k := range pictureKinds {
		fmt.Fprintf(&b, "  %-8s %s\n", k.name, k.shows)
	}
	return strings.TrimRight(b.String(), "\n")
}

// pictureArgs takes the name of a picture and a rig at most.
func pictureArgs(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return misusef("plot: no picture named, expected one of %s, or all", pictureList())
	}
	if args[0] != "all" && !slices.ContainsFunc(pictureKinds, func(k pictureKind) bool { return k.name == args[0] }) {
		return misusef("plot %s: no such picture, expected one of %s, or all", args[0], pictureList())
	}
	return oneAtMost(c, withoutUnit(args[1:]))
}

func pictureList() string {
	var names []string
	for _, k := range pictureKinds {
		names = append(names, k.name)
	}
	return strings.Join(names, ", ")
}

func completePicture(c *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return completeFile(c, args[1:], word)
	}
	names := []string{"all"}
	for _, k := range pictureKinds {
		names = append(names, k.name+"\t"+k.shows)
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// A plotFile is a picture that was written.
type plotFile struct {
	Name  string `json:"name"`
	File  string `json:"file"`
	Title string `json:"title"`
}

type plotAnswer struct {
	Files []plotFile `json:"files"`
}

// write writes one picture, or all that the rig has.
func (p *pictures) write(name string) ([]plotFile, error) {
	if name == "all" {
		return p.writeAll()
	}
	k := pictureKinds[slices.IndexFunc(pictureKinds, func(k pictureKind) bool { return k.name == name })]
	path := p.flags.output
	if path == "" {
		format, err := ink.FormatNamed(p.flags.format)
		if err != nil {
			return nil, misusef("--format %v", err)
		}
		path = rigStem(p.job.file.File) + "-" + k.name + "." + string(format)
	}
	format, err := ink.FormatOf(path)
	if err != nil {
		return nil, misusef("-o %s: %v", path, err)
	}
	drawn, err := k.draw(p)
	if err != nil {
		return nil, err
	}
	file, err := p.put(k, drawn, path, format)
	return []plotFile{file}, err
}

// put writes a picture to a file.
func (p *pictures) put(k pictureKind, drawn picture, path string, format ink.Format) (plotFile, error) {
	var buf bytes.Buffer
	w, h := drawn.Size()
	if err := format.Write(&buf, drawn.Title(), w, h, drawn.Paint); err != nil {
		return plotFile{}, fmt.Errorf("%s: %w", path, err)
	}
	return plotFile{k.name, path, drawn.Title()}, writeFile(path, buf.Bytes(), p.flags.force)
}

// writeAll writes every picture that the rig has into a folder; what it does not have is
// told.
func (p *pictures) writeAll() ([]plotFile, error) {
	format, err := ink.FormatNamed(p.flags.format)
	if err != nil {
		return nil, misusef("--format %v", err)
	}
	folder := p.flags.output
	if folder == "" {
		folder = rigStem(p.job.file.File) + "-pictures"
	}
	type drawn struct {
		pictureKind
		picture picture
		path    string
	}
	var all []drawn
	progress, finish := watch("pictures")
	defer finish()
	for i, k := range pictureKinds {
		picture, err := k.draw(p)
		if err != nil {
			warn("%s: not drawn: %v", k.name, err)
			continue
		}
		path := filepath.Join(folder, k.name+"."+string(format))
		if _, err := os.Lstat(path); err == nil && !p.flags.force {
			return nil, fmt.Errorf("%s: exists already, expected another folder or --force", path)
		}
		all = append(all, drawn{k, picture, path})
		if progress != nil {
			progress(i+1, len(pictureKinds))
		}
	}
	if err := os.Mkdir(folder, 0o755); err != nil && !isFolder(folder) {
		return nil, fmt.Errorf("%s: no folder, and none can be made there, expected the name of one in a folder that is there", folder)
	}
	var files []plotFile
	for _, d := range all {
		file, err := p.put(d.pictureKind, d.picture, d.path, format)
		if err != nil {
			return files, err
		}
		files = append(files, file)
	}
	return files, nil
}

// rigStem is the name of a rig's file without its folder and ending.
func rigStem(file string) string {
	base := filepath.Base(file)
	return strings.TrimSuffix(base, filepath.Ext(base))
}
