import { Component, type ReactNode } from 'react';

/** A promise of ours was broken somewhere below: say so, keep the design at hand. */
export class ErrorBoundary extends Component<
  { readonly children: ReactNode; readonly onRescue: () => void },
  { readonly failure: Error | null }
> {
  override state: { readonly failure: Error | null } = { failure: null };

  static getDerivedStateFromError(failure: Error): { failure: Error } {
    return { failure };
  }

  override render(): ReactNode {
    const { failure } = this.state;
    if (!failure) return this.props.children;
    return (
      <main className="broken" role="alert">
        <h1>The bench has stumbled</h1>
        <p>Your design is safe in this browser. Download it to be sure, then reload the page.</p>
        <p className="note">{failure.message}</p>
        <div className="actions">
          <button type="button" className="strong" onClick={this.props.onRescue}>
            Download the design
          </button>
          <button type="button" onClick={() => window.location.reload()}>
            Reload
          </button>
        </div>
      </main>
    );
  }
}
