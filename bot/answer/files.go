package answer

import "strings"

// MIME types of attachments that adapters show in their own way.
const (
	PNG = "image/png"
	PDF = "application/pdf"
	SVG = "image/svg+xml"
)

// FileSet is an answer's attachments, sorted by when a room shows them.
type FileSet struct {
	// Picture is shown with the answer, and so is AtOnce; Picture may be nil.
	Picture *Attachment
	AtOnce  []Attachment
	// PDF, SVG and Others, further pictures, are sent when somebody asks for them.
	PDF, SVG, Others []Attachment
}

// Files sorts the attachments. Set once if they can't be made again: then all
// of them go with the answer.
func (a *Answer) Files(once bool) FileSet {
	var f FileSet
	for i, at := range a.Attachments {
		kind, _, _ := strings.Cut(at.Type, ";")
		switch {
		case kind == PNG && f.Picture == nil:
			f.Picture = &a.Attachments[i]
		case once || a.Fleeting:
			f.AtOnce = append(f.AtOnce, at)
		case kind == PDF:
			f.PDF = append(f.PDF, at)
		case kind == SVG:
			f.SVG = append(f.SVG, at)
		case kind == PNG:
			f.Others = append(f.Others, at)
		default: // an export is what was asked for
			f.AtOnce = append(f.AtOnce, at)
		}
	}
	return f
}

// FileProblem is what the asker reads about a file that can't be shown.
func FileProblem(name string) string {
	return name + " could not be drawn or sent; the figures above are still valid"
}

// HasLengths reports whether the figures differ when shown in inches.
func (a *Answer) HasLengths() bool {
	for _, f := range a.Figures {
		if f.Display() != f.DisplayInches() {
			return true
		}
	}
	return false
}
