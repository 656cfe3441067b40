"""A mail server of a few lines, to fail at whichever stage a test names (RFC 5321)."""
import socket
import threading

STAGES = ("connected", "EHLO", "MAIL", "RCPT", "DATA", "end of data")


class Stage:
    """A server of a few lines that answers each stage as told: a reply, None for a closed line, or silence."""

    def __init__(self, answers):
        self.answers, self.seen = answers, []
        self.socket = socket.create_server(("127.0.0.1", 0))
        self.port = self.socket.getsockname()[1]
        threading.Thread(target=self.serve, daemon=True).start()

    def answer(self, line, stage):
        self.seen.append(stage)
        reply = self.answers.get(stage, {"connected": "220 here", "EHLO": "250 here", "DATA": "354 go on"}.get(stage, "250 fine"))
        if reply == "silence":
            threading.Event().wait(8)
        if reply is None or reply == "silence":
            raise ConnectionError
        line.sendall((reply + "\r\n").encode())

    def serve(self):
        with self.socket, self.socket.accept()[0] as line:
            try:
                self.answer(line, "connected")
                data = b""
                while part := line.recv(65536):
                    data += part
                    if "DATA" in self.seen and "end of data" not in self.seen:
                        if data.endswith(b"\r\n.\r\n"):
                            self.answer(line, "end of data")
                            data = b""
                        continue
                    while b"\r\n" in data:
                        word, _, data = data.partition(b"\r\n")
                        verb = word.split(b" ")[0].split(b":")[0].decode()
                        self.answer(line, verb if verb in STAGES else "QUIT")
            except ConnectionError:
                pass


class MailServer:
    """A server for many lines, one thread each, that answers a stage as `answers` has it at that moment and keeps whole messages."""

    def __init__(self, answers=None):
        self.answers, self.messages, self.tries = answers or {}, [], 0
        self.socket = socket.create_server(("127.0.0.1", 0), backlog=50)
        self.port = self.socket.getsockname()[1]
        threading.Thread(target=self.accept, daemon=True).start()

    def accept(self):
        while True:
            try:
                line = self.socket.accept()[0]
            except OSError:
                return
            threading.Thread(target=self.serve, args=(line,), daemon=True).start()

    def reply(self, line, stage):
        reply = self.answers.get(stage, {"connected": "220 here", "DATA": "354 go on"}.get(stage, "250 fine"))
        while reply == "silence" and self.answers.get(stage) == "silence":
            threading.Event().wait(0.1)
        if reply is None or reply == "silence":
            raise ConnectionError
        line.sendall((reply + "\r\n").encode())
        return reply

    def serve(self, line):
        self.tries += 1
        with line, line.makefile("rb") as words:
            try:
                self.reply(line, "connected")
                for word in words:
                    verb = word.split(b" ")[0].split(b":")[0].strip().decode()
                    if self.reply(line, verb).startswith("354"):
                        message = b""
                        while (part := words.readline()) not in (b".\r\n", b""):
                            message += part
                        if self.reply(line, "end of data").startswith("2"):
                            self.messages.append(message)
            except (ConnectionError, OSError):
                pass
