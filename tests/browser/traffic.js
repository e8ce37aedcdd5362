// Put into every page before anything else runs: counts what the page asked of the server and what was answered.
// The messages are protocol buffers; of each only the outermost fields are read.
(() => {
    const RERUN = 11, NEW_SESSION = 4, FINISHED = 6, EARLY_FOR_RERUN = 2;
    const traffic = (window.traffic = { asked: 0, taken: 0, answered: 0 });

    function fields(data) {
        const bytes = new Uint8Array(data.buffer ?? data, data.byteOffset ?? 0, data.byteLength), found = new Map();
        let at = 0;
        const varint = () => {
            let value = 0, scale = 1, byte;
            do {
                byte = bytes[at++];
                value += (byte & 127) * scale;
                scale *= 128;
            } while (byte > 127);
            return value;
        };
        while (at < bytes.length) {
            const tag = varint(), value = varint();
            found.set(Math.floor(tag / 8), value);
            if (tag % 8 === 2) at += value;
            else if (tag % 8 !== 0) break;
        }
        return found;
    }

    function hear(event) {
        if (!(event.data instanceof ArrayBuffer)) return;
        const found = fields(event.data);
        if (found.has(NEW_SESSION)) traffic.taken = traffic.asked;
        if (found.has(FINISHED) && found.get(FINISHED) !== EARLY_FOR_RERUN) traffic.answered = traffic.taken;
    }

    const send = WebSocket.prototype.send, heard = new WeakSet();
    WebSocket.prototype.send = function (data) {
        if (!heard.has(this)) {
            heard.add(this);
            this.addEventListener("message", hear);
        }
        if (typeof data !== "string" && fields(data).has(RERUN)) traffic.asked += 1;
        return send.call(this, data);
    };
})();
