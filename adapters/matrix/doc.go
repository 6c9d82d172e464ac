// Package matrix brings guildhand to rooms on Matrix: it reads the event
// stream of an account, makes a bot.Request of what is addressed to the bot,
// and sends the reply as notices, pictures and files, encrypted where the room
// is encrypted. It knows no request by name.
//
// What it promises:
//
//  1. A question is answered once, also across crashes of the bot and cuts of
//     the connection. The position in the stream is kept only after all events
//     before it are handled (inbox.go), so events come at least once; the
//     daybook knows which were answered, and each message carries a name derived
//     from the question, by which an earlier copy is found (send.go).
//  2. Nothing is sent in plain text to an encrypted room. A room's state is
//     read from the server before the bot's first message, a room once
//     encrypted stays so, and where the state cannot be learned nothing is
//     sent (room.go, send.go).
//  3. What happened before the bot joined is not answered (timeline.go).
//  4. Where the disk is full, who asks is told so, also in encrypted rooms: the
//     store keeps room within itself for the keys (store.go). Where the store
//     takes no writes at all, as on a disk that turned read-only, nothing can be
//     read or said in encrypted rooms without weakening the keys. What is asked
//     there waits, and is answered when the store is back or the program has
//     taken a new start (undecryptable.go, syncer.go).
//
// Encryption needs the build tag goolm; without it the package still builds and
// works in rooms without encryption.
package matrix
