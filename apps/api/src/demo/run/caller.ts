/** Somebody who asks the API over HTTP, like every program. */
export class Caller {
  constructor(
    private readonly url: string,
    private readonly token: string | null = null,
  ) {}

  signedOn(token: string): Caller {
    return new Caller(this.url, token);
  }

  async post(path: string, body: unknown): Promise<unknown> {
    return (await this.ask(path, { method: 'POST', body: JSON.stringify(body), headers: { 'content-type': 'application/json' } })).json();
  }

  async get(path: string): Promise<unknown> {
    return (await this.ask(path)).json();
  }

  /** A paper: its bytes. */
  async file(path: string): Promise<Uint8Array> {
    return new Uint8Array(await (await this.ask(path)).arrayBuffer());
  }

  private async ask(path: string, init: RequestInit = {}): Promise<Response> {
    const authorization: Record<string, string> = this.token === null ? {} : { authorization: `Bearer ${this.token}` };
    const response = await fetch(`${this.url}/api/v1${path}`, {
      ...init,
      headers: { ...authorization, ...(init.headers as Record<string, string> | undefined) },
    }); // as given above
    if (!response.ok)
      throw new Error(`${init.method ?? 'GET'} ${path} answered ${response.status}: ${(await response.text()).slice(0, 400)}`);
    return response;
  }
}
