package matrix

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"slices"

	"golang.org/x/image/draw"
	"maunium.net/go/mautrix"
	"maunium.net/go/mautrix/crypto/attachment"
	"maunium.net/go/mautrix/event"
	"maunium.net/go/mautrix/id"

	"guildhand/bot/answer"
)

// thumbnailPx is the longest side of a thumbnail, enough for a phone's list.
const thumbnailPx = 320

// imageOf builds an m.image of a PNG attachment. The event's body is its caption
// or, where that is nil, the alternative text, beside the file's name.
func (a *Adapter) imageOf(at answer.Attachment, caption *message, finish func(*event.MessageEventContent) *event.MessageEventContent) builder {
	return func(ctx context.Context, encrypted bool) (*event.MessageEventContent, error) {
		data, err := at.Render(ctx)
		if err != nil {
			return nil, errNever{fmt.Errorf("drawing %s: %w", at.Name, err)}
		}
		full, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			return nil, errNever{fmt.Errorf("%s is not a PNG: %w", at.Name, err)}
		}
		small, smallSize, err := thumbnail(full)
		if err != nil {
			return nil, errNever{err}
		}
		c := &event.MessageEventContent{
			MsgType: event.MsgImage, FileName: clean(at.Name), Body: clean(at.Alt),
			Info: &event.FileInfo{
				MimeType: at.Type, Size: len(data),
				Width: full.Bounds().Dx(), Height: full.Bounds().Dy(),
			},
		}
		if c.Body == "" {
			c.Body = c.FileName
		}
		if caption != nil {
			text := caption.notice()
			c.Body, c.Format, c.FormattedBody = text.Body, text.Format, text.FormattedBody
		}
		if c.URL, c.File, err = a.upload(ctx, data, at.Type, at.Name, encrypted); err != nil {
			return nil, err
		}
		if len(small) >= len(data) {
			return finish(c), nil // line drawings compress better at full size
		}
		c.Info.ThumbnailInfo = &event.FileInfo{MimeType: answer.PNG, Size: len(small), Width: smallSize.X, Height: smallSize.Y}
		c.Info.ThumbnailURL, c.Info.ThumbnailFile, err = a.upload(ctx, small, answer.PNG, "thumbnail-"+at.Name, encrypted)
		if err != nil {
			return nil, err
		}
		return finish(c), nil
	}
}

// attach builds an m.image of a PNG, and an m.file of any other attachment.
func (a *Adapter) attach(at answer.Attachment, finish func(*event.MessageEventContent) *event.MessageEventContent) builder {
	if at.Type == answer.PNG {
		return a.imageOf(at, nil, finish)
	}
	return a.fileOf(at, finish)
}

// fileOf builds an m.file of an attachment.
func (a *Adapter) fileOf(at answer.Attachment, finish func(*event.MessageEventContent) *event.MessageEventContent) builder {
	return func(ctx context.Context, encrypted bool) (*event.MessageEventContent, error) {
		data, err := at.Render(ctx)
		if err != nil {
			return nil, errNever{fmt.Errorf("making %s: %w", at.Name, err)}
		}
		c := &event.MessageEventContent{
			MsgType: event.MsgFile, FileName: clean(at.Name), Body: clean(at.Name),
			Info: &event.FileInfo{MimeType: at.Type, Size: len(data)},
		}
		if c.URL, c.File, err = a.upload(ctx, data, at.Type, at.Name, encrypted); err != nil {
			return nil, err
		}
		return finish(c), nil
	}
}

// upload brings bytes to the server. For an encrypted room they are encrypted
// first, and the server is told neither name nor type.
func (a *Adapter) upload(ctx context.Context, data []byte, mime, name string, encrypted bool) (id.ContentURIString, *event.EncryptedFileInfo, error) {
	req := mautrix.ReqUploadMedia{ContentBytes: data, ContentType: mime, FileName: name}
	var key *attachment.EncryptedFile
	if encrypted {
		key = attachment.NewEncryptedFile()
		secret := bytes.Clone(data)
		key.EncryptInPlace(secret)
		req = mautrix.ReqUploadMedia{ContentBytes: secret, ContentType: "application/octet-stream"}
	}
	resp, err := persist(ctx, func(ctx context.Context) (*mautrix.RespMediaUpload, error) {
		return a.cli.UploadMedia(ctx, req)
	})
	if err != nil {
		return "", nil, fmt.Errorf("uploading %s: %w", name, err)
	}
	if encrypted {
		return "", &event.EncryptedFileInfo{EncryptedFile: *key, URL: resp.ContentURI.CUString()}, nil
	}
	return resp.ContentURI.CUString(), nil, nil
}

// thumbnail scales a picture down; a small one stays as it is.
func thumbnail(full image.Image) ([]byte, image.Point, error) {
	size := full.Bounds().Size()
	if size.X < 1 || size.Y < 1 {
		return nil, size, fmt.Errorf("empty picture")
	}
	if longest := max(size.X, size.Y); longest > thumbnailPx {
		size = image.Pt(max(1, size.X*thumbnailPx/longest), max(1, size.Y*thumbnailPx/longest))
	}
	var out image.Image
	if p, ok := full.(*image.Paletted); ok && inGrays(p.Palette) {
		out = smallDrawing(p, size)
	} else {
		small := image.NewRGBA(image.Rectangle{Max: size})
		// Scaling reads a pixel of RGBA many times faster than one of another kind.
		plain := image.NewRGBA(full.Bounds())
		draw.Draw(plain, plain.Bounds(), full, full.Bounds().Min, draw.Src)
		draw.CatmullRom.Scale(small, small.Bounds(), plain, plain.Bounds(), draw.Src, nil)
		out = small
	}
	var buf bytes.Buffer
	if err := png.Encode(&buf, out); err != nil {
		return nil, size, fmt.Errorf("thumbnail: %w", err)
	}
	return buf.Bytes(), size, nil
}

// inGrays reports whether a palette has nothing but greys.
func inGrays(p color.Palette) bool {
	return len(p) > 0 && !slices.ContainsFunc(p, func(c color.Color) bool {
		r, g, b, a := c.RGBA()
		return r != g || g != b || a != 0xffff
	})
}

// smallDrawing scales a drawing in greys, with one channel instead of four, and
// keeps its palette: as small as the drawing itself is.
func smallDrawing(full *image.Paletted, size image.Point) *image.Paletted {
	greyOf := func(c color.Color) uint8 { return color.GrayModel.Convert(c).(color.Gray).Y }
	var greys [256]uint8
	for i, c := range full.Palette {
		greys[i] = greyOf(c)
	}
	plain := image.NewGray(full.Bounds())
	for i, index := range full.Pix {
		plain.Pix[i] = greys[index]
	}
	scaled := image.NewRGBA(image.Rectangle{Max: size})
	draw.BiLinear.Scale(scaled, scaled.Bounds(), plain, plain.Bounds(), draw.Src, nil)
	var nearest [256]uint8
	for y := range nearest {
		nearest[y] = uint8(full.Palette.Index(color.Gray{Y: uint8(y)}))
	}
	small := image.NewPaletted(scaled.Bounds(), full.Palette)
	for i := range small.Pix {
		small.Pix[i] = nearest[scaled.Pix[4*i]]
	}
	return small
}
