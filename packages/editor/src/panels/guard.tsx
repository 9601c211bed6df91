import { Component, type ReactNode } from "react";
import { Trouble } from "./trouble.tsx";

interface Props {
  readonly children: ReactNode;
  readonly close: () => void;
}

interface State {
  readonly says: string | undefined;
}

/** A bug while something is drawn ends in words, never in a blank page. React asks for a class here. */
export class Guard extends Component<Props, State> {
  override state: State = { says: undefined };

  static getDerivedStateFromError(error: unknown): State {
    return { says: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    const { says } = this.state;
    return says === undefined ? this.props.children : <Trouble says={says} close={this.props.close} />;
  }
}
