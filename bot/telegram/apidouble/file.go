package apidouble

import (
	"bytes"
	"fmt"
	"image"
	_ "image/gif" // photos are measured
	_ "image/jpeg"
	_ "image/png"
	"mime"
	"net/http"
	"path/filepath"
	"strings"
)

// File is something uploaded.
type File struct {
	ID            string
	Photo         bool
	Name          string
	Mime          string
	Width, Height int // of photos
	Data          []byte
}

func (d *Double) keep(f *File) *File {
	d.nextFile++
	f.ID = fmt.Sprintf("file%d", d.nextFile)
	d.files[f.ID] = f
	return f
}

// fileOf takes the file of a send: uploaded, or the id of one seen before. Fetching
// from an address is not modelled, there being no network but loopback.
func (d *Double) fileOf(c *call, field string, photo bool) (*File, *apiError) {
	up, ok := c.files[field]
	if !ok {
		value := c.params[field]
		if name, attached := strings.CutPrefix(value, "attach://"); attached {
			if up, ok = c.files[name]; !ok {
				return nil, breached("there is no file " + name + " in the request")
			}
		} else if f := d.files[value]; f != nil && f.Photo == photo {
			return f, nil
		} else {
			return nil, badRequest("wrong file identifier/HTTP URL specified")
		}
	}
	f := &File{Photo: photo, Name: up.name, Data: up.data}
	if err := d.measure(c, field, f); err != nil {
		return nil, err
	}
	return d.keep(f), nil
}

func (d *Double) measure(c *call, field string, f *File) *apiError {
	if len(f.Data) == 0 {
		return breached("file must be non-empty")
	}
	s, _ := d.spec.field(d.spec.Methods[c.method].Fields, field)
	limit := s.Limits.MaxMB
	if !f.Photo {
		limit = d.spec.Methods[c.method].Limits.MaxMB
	}
	if limit > 0 && int64(len(f.Data)) > limit<<20 {
		return breached("file is too big")
	}
	if !f.Photo {
		f.Mime = mime.TypeByExtension(filepath.Ext(f.Name))
		return nil
	}
	f.Mime = http.DetectContentType(f.Data)
	picture, _, err := image.DecodeConfig(bytes.NewReader(f.Data))
	if err != nil {
		return breached("IMAGE_PROCESS_FAILED")
	}
	f.Width, f.Height = picture.Width, picture.Height
	long, short := max(f.Width, f.Height), min(f.Width, f.Height)
	if long+short > s.Limits.MaxWidthHeight || long > short*s.Limits.MaxAspectRatio {
		return breached("PHOTO_INVALID_DIMENSIONS")
	}
	return nil
}

// Forget makes the server lose a file: its id stands for nothing any more.
func (d *Double) Forget(id string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	delete(d.files, id)
}
