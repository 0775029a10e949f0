import { useEffect, useState } from "react";
import { fromBase64 } from "../../jobs/photographs.ts";
import "./PhotographPicture.css";

interface PhotographPictureProps {
  /** as bytes, or in base64 as a string's record has it */
  readonly jpeg: Uint8Array<ArrayBuffer> | string;
  readonly alt: string;
}

/** A photograph by an address of the page's own: the content security policy lets no data: address in. */
export function PhotographPicture({ jpeg, alt }: PhotographPictureProps) {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    const bytes = typeof jpeg === "string" ? fromBase64(jpeg) : jpeg;
    const made = URL.createObjectURL(new Blob([bytes], { type: "image/jpeg" }));
    setAddress(made);
    // Until it is given back the browser holds the picture in memory.
    return () => URL.revokeObjectURL(made);
  }, [jpeg]);
  return <img className="photograph" src={address} alt={alt} />;
}
