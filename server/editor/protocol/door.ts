import {
  type ConnectionOptions,
  ErrorCodes,
  LSPErrorCodes,
  Message,
  type MessageReader,
  type MessageWriter,
  type ResponseMessage,
} from 'vscode-languageserver';

/*
 * What comes at the wrong time is answered at the door, whichever way it comes: a question before `initialize` or after
 * `shutdown`, a second `initialize`, and what is no message at all. What is only told then is let fall, as the protocol
 * asks; `exit` always goes through.
 */
export function keepDoor(reader: MessageReader, writer: MessageWriter): MessageReader {
  let stage: 'closed' | 'open' | 'leaving' = 'closed';
  const refuse = (id: number | string | null, code: number, message: string) =>
    void writer.write({ jsonrpc: '2.0', id, error: { code, message } } as Message);

  const mayPass = (message: Message): boolean => {
    if (Message.isRequest(message)) {
      const { id, method } = message;
      if (stage === 'leaving') refuse(id, ErrorCodes.InvalidRequest, 'The server has been shut down.');
      else if (stage === 'closed' && method !== 'initialize')
        refuse(id, ErrorCodes.ServerNotInitialized, 'The server has not been initialized yet.');
      else if (stage === 'open' && method === 'initialize')
        refuse(id, ErrorCodes.InvalidRequest, 'The server has been initialized already.');
      else {
        if (method === 'initialize') stage = 'open';
        if (method === 'shutdown') stage = 'leaving';
        return true;
      }
      return false;
    }
    if (Message.isNotification(message)) {
      // The library falls over one that does not say what it takes back.
      if (message.method === '$/cancelRequest' && !saysWhich(message)) return false;
      return stage === 'open' || message.method === 'exit' || (stage === 'leaving' && message.method.startsWith('$/'));
    }
    if (Message.isResponse(message)) return true;
    const id = (message as { id?: unknown } | null)?.id;
    const why = 'This is neither a request, a notification nor a response.';
    refuse(isId(id) ? id : null, ErrorCodes.InvalidRequest, why);
    return false;
  };

  return {
    onError: reader.onError,
    onClose: reader.onClose,
    onPartialMessage: reader.onPartialMessage,
    listen: (callback) =>
      reader.listen((message) => {
        if (mayPass(message)) callback(message);
      }),
    dispose: () => reader.dispose(),
  };
}

const isId = (id: unknown): id is number | string => typeof id === 'string' || typeof id === 'number';

const saysWhich = (message: Message): boolean => isId((message as { params?: { id?: unknown } | null }).params?.id);

/** A question that is taken back before anybody has looked at it is answered so, and nobody ever looks. */
export const takingBack: ConnectionOptions = {
  connectionStrategy: {
    cancelUndispatched: (message): ResponseMessage | undefined =>
      Message.isRequest(message)
        ? {
            jsonrpc: '2.0',
            id: message.id,
            error: { code: LSPErrorCodes.RequestCancelled, message: 'Cancelled before it was looked at.' },
          }
        : undefined,
  },
};
