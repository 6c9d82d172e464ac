// A Matrix client for the tests of adapters/matrix. Its cryptography is the Rust
// one that most clients use, so it shares no code with the bot. It reads commands
// from its input and writes what it sees to its output, a JSON object a line.
//
//   {"do": "login", "homeserver", "user", "password"}  {"did": "login", "user", "device"}
//   {"do": "join", "room"}                             {"did": "join"}
//   {"do": "send", "room", "body"}                     {"did": "send", "event"}
//   {"do": "bootstrap", "password"}                    {"did": "bootstrap"}: makes cross-signing keys
//   {"do": "verify", "user", "room"}                   {"did": "verify"}, then {"emoji": [...]}
//   {"do": "confirm"}                                  {"did": "confirm"}, then {"verified": true}
//   {"do": "withdraw", "user"}         {"did": "withdraw"}: takes back that the user was verified
//   {"do": "trusts", "user", "device"}                 {"did": "trusts", "signed", "verified"}
//
// Room messages come as {"room", "sender", "id", "type", "content"}; where one
// can't be decrypted, with "fail" in place of the content. Only devices that
// their owner has signed are read, and only to those are keys given.
import { createInterface } from "node:readline";
import * as rust from "@matrix-org/matrix-sdk-crypto-wasm";

await rust.initAsync();

const signedOnly = new rust.DecryptionSettings(rust.TrustRequirement.CrossSigned);
let base, token, me, machine, since = "";
let transaction = 0;
let sas, request;
const waiting = []; // events whose keys may still come

const say = (what) => process.stdout.write(JSON.stringify(what) + "\n");

async function call(method, path, body) {
  for (;;) {
    const response = await fetch(base + path, {
      method,
      headers: { ...(token ? { Authorization: "Bearer " + token } : {}), "Content-Type": "application/json" },
      body: body === undefined ? undefined : typeof body === "string" ? body : JSON.stringify(body),
    });
    const text = await response.text();
    if (response.status === 429) {
      await new Promise((done) => setTimeout(done, JSON.parse(text).retry_after_ms ?? 1000));
      continue;
    }
    if (!response.ok) throw Object.assign(new Error(`${method} ${path}: ${response.status} ${text}`), { status: response.status, text });
    return text;
  }
}

const v3 = (path) => "/_matrix/client/v3/" + path;
const part = encodeURIComponent;

// perform sends one of the machine's requests and tells the machine the answer.
async function perform(r) {
  let text;
  switch (r.type) {
    case rust.RequestType.KeysUpload: text = await call("POST", v3("keys/upload"), r.body); break;
    case rust.RequestType.KeysQuery: text = await call("POST", v3("keys/query"), r.body); break;
    case rust.RequestType.KeysClaim: text = await call("POST", v3("keys/claim"), r.body); break;
    case rust.RequestType.SignatureUpload: text = await call("POST", v3("keys/signatures/upload"), r.body); break;
    case rust.RequestType.ToDevice:
      text = await call("PUT", v3(`sendToDevice/${part(r.event_type)}/${part(r.txn_id)}`), r.body); break;
    case rust.RequestType.RoomMessage:
      text = JSON.stringify({ event_id: await send(r.room_id, r.event_type, JSON.parse(r.body)) }); break;
    default: throw new Error("a request of type " + r.type);
  }
  if (r.id) await machine.markRequestAsSent(r.id, r.type, text);
}

async function performAll(which = () => true) {
  for (const r of (await machine.outgoingRequests()).filter(which)) await perform(r);
}

async function members(room) {
  const { joined } = JSON.parse(await call("GET", v3(`rooms/${part(room)}/joined_members`)));
  return Object.keys(joined).map((user) => new rust.UserId(user));
}

async function encrypted(room) {
  try {
    await call("GET", v3(`rooms/${part(room)}/state/m.room.encryption`));
    return true;
  } catch (failed) {
    if (failed.status === 404) return false;
    throw failed;
  }
}

async function send(room, type, content) {
  if (await encrypted(room)) {
    const id = new rust.RoomId(room);
    const users = await members(room);
    const settings = new rust.EncryptionSettings();
    settings.sharingStrategy = rust.CollectStrategy.identityBasedStrategy();
    await machine.updateTrackedUsers(users.map((user) => user.clone()));
    await performAll((r) => r.type !== rust.RequestType.RoomMessage); // one of those is being sent here
    await perform(machine.queryKeysForUsers(users.map((user) => user.clone())));
    const claim = await machine.getMissingSessions(users.map((user) => user.clone()));
    if (claim) await perform(claim);
    for (const r of await machine.shareRoomKey(id, users, settings)) await perform(r);
    content = JSON.parse(await machine.encryptRoomEvent(new rust.RoomId(room), type, JSON.stringify(content)));
    type = "m.room.encrypted";
  }
  const text = await call("PUT", v3(`rooms/${part(room)}/send/${part(type)}/c${Date.now()}.${++transaction}`), content);
  return JSON.parse(text).event_id;
}

// read shows an event, or keeps it for when its key comes.
async function read(room, event, last) {
  let shown = { room, sender: event.sender, id: event.event_id, type: event.type, content: event.content };
  if (event.type === "m.room.encrypted") {
    try {
      const decrypted = await machine.decryptRoomEvent(JSON.stringify(event), new rust.RoomId(room), signedOnly);
      const clear = JSON.parse(decrypted.event);
      shown = { ...shown, type: clear.type, content: { ...clear.content, "m.relates_to": event.content["m.relates_to"] ?? clear.content["m.relates_to"] }, encrypted: true };
      event = { ...event, type: clear.type, content: clear.content };
    } catch (failed) {
      if (!last) {
        waiting.push({ room, event, until: Date.now() + 10000 });
        return;
      }
      shown.fail = String(failed.description ?? failed.message ?? failed);
      delete shown.content;
    }
  }
  if (event.type.startsWith("m.key.verification.") || event.content?.msgtype === "m.key.verification.request") {
    await machine.receiveVerificationEvent(JSON.stringify({ ...event, room_id: room }), new rust.RoomId(room));
    await performAll();
    await verifyOn();
    return;
  }
  say(shown);
}

// verifyOn takes the next step of a verification that is under way.
async function verifyOn() {
  if (request && !sas && request.isReady()) {
    const [begun, r] = await request.startSas();
    sas = begun;
    await perform(r);
  }
  if (!sas) {
    if (request?.isCancelled()) { say({ cancelled: request.cancelInfo?.reason() ?? "" }); request = undefined; }
    return;
  }
  if (sas.canBePresented() && !sas.shown) {
    sas.shown = true;
    say({ emoji: sas.emoji().map((e) => e.symbol) });
  }
  if (sas.isCancelled()) { say({ cancelled: sas.cancelInfo()?.reason() ?? "" }); sas = request = undefined; }
  else if (sas.isDone()) { say({ verified: true }); sas = request = undefined; }
}

async function follow() {
  for (;;) {
    let text;
    try {
      text = await call("GET", v3(`sync?timeout=1000&filter=${part('{"room":{"timeline":{"limit":1000}}}')}` + (since ? "&since=" + part(since) : "")));
    } catch (failed) {
      say({ error: String(failed) });
      await new Promise((done) => setTimeout(done, 500));
      continue;
    }
    const sync = JSON.parse(text);
    const users = (list) => (list ?? []).map((user) => new rust.UserId(user));
    await locked(async () => {
      await machine.receiveSyncChanges(JSON.stringify(sync.to_device?.events ?? []),
        new rust.DeviceLists(users(sync.device_lists?.changed), users(sync.device_lists?.left)),
        new Map(Object.entries(sync.device_one_time_keys_count ?? {})),
        new Set(sync.device_unused_fallback_key_types ?? []), new rust.DecryptionSettings(rust.TrustRequirement.Untrusted));
      await performAll();
      for (const [room, { timeline }] of Object.entries(sync.rooms?.join ?? {})) {
        if (!since) continue; // history
        for (const event of timeline?.events ?? []) {
          if (event.state_key === undefined && event.sender !== me.toString() || event.type?.startsWith("m.key.")) await read(room, event, false);
        }
      }
      for (const { room, event, until } of waiting.splice(0)) {
        const last = Date.now() > until;
        if (last) await read(room, event, true);
        else await again(room, event, until);
      }
      await verifyOn();
    });
    since = sync.next_batch;
  }
}

async function again(room, event, until) {
  const before = waiting.length;
  await read(room, event, false);
  if (waiting.length > before) waiting[waiting.length - 1].until = until;
}

// locked runs one thing at a time: the machine's steps must not be mixed.
let turn = Promise.resolve();
function locked(what) {
  const mine = turn.then(what);
  turn = mine.catch(() => {});
  return mine;
}

const commands = {
  async login({ homeserver, user, password }) {
    base = homeserver;
    const login = JSON.parse(await call("POST", v3("login"), {
      type: "m.login.password", identifier: { type: "m.id.user", user }, password, initial_device_display_name: "an independent client",
    }));
    token = login.access_token;
    me = new rust.UserId(login.user_id);
    machine = await rust.OlmMachine.initialize(me, new rust.DeviceId(login.device_id));
    await performAll();
    follow();
    return { user: login.user_id, device: login.device_id };
  },
  async bootstrap({ password }) {
    const { uploadKeysRequest, uploadSigningKeysRequest, uploadSignaturesRequest } = await machine.bootstrapCrossSigning(true);
    if (uploadKeysRequest) await perform(uploadKeysRequest);
    const keys = JSON.parse(uploadSigningKeysRequest.body);
    try {
      await call("POST", v3("keys/device_signing/upload"), keys);
    } catch (failed) {
      if (failed.status !== 401) throw failed;
      const { session } = JSON.parse(failed.text);
      await call("POST", v3("keys/device_signing/upload"), { ...keys, auth: {
        type: "m.login.password", identifier: { type: "m.id.user", user: me.toString() }, password, session } });
    }
    await perform(uploadSignaturesRequest);
    await perform(machine.queryKeysForUsers([me.clone()]));
    return {};
  },
  async join({ room }) { await call("POST", v3(`join/${part(room)}`), {}); return {}; },
  async send({ room, body }) { return { event: await send(room, "m.room.message", { msgtype: "m.text", body }) }; },
  async verify({ user, room }) {
    const who = new rust.UserId(user);
    await machine.updateTrackedUsers([who.clone()]);
    await perform(machine.queryKeysForUsers([who.clone()]));
    const identity = await machine.getIdentity(who.clone());
    if (user === me.toString()) {
      const [begun, r] = await identity.requestVerification([rust.VerificationMethod.SasV1]);
      request = begun;
      await perform(r);
    } else {
      const content = JSON.parse(identity.verificationRequestContent([rust.VerificationMethod.SasV1]));
      const event = await send(room, "m.room.message", content);
      request = identity.requestVerification(new rust.RoomId(room), new rust.EventId(event), [rust.VerificationMethod.SasV1]);
    }
    return {};
  },
  async confirm() {
    for (const r of await sas.confirm()) await perform(r);
    return {};
  },
  async withdraw({ user }) {
    const identity = await machine.getIdentity(new rust.UserId(user));
    await identity.withdrawVerification();
    return {};
  },
  async trusts({ user, device }) {
    const who = new rust.UserId(user);
    await machine.updateTrackedUsers([who.clone()]);
    await perform(machine.queryKeysForUsers([who.clone()]));
    const found = await machine.getDevice(who.clone(), new rust.DeviceId(device));
    const identity = await machine.getIdentity(who);
    return { signed: found?.isCrossSignedByOwner() ?? false, verified: identity?.isVerified() ?? false };
  },
};

for await (const line of createInterface({ input: process.stdin })) {
  const command = JSON.parse(line);
  locked(() => commands[command.do](command)).then(
    (did) => say({ did: command.do, ...did }),
    (failed) => say({ did: command.do, error: String(failed.stack ?? failed) }));
}
process.exit(0);
