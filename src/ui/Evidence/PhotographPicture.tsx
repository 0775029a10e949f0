import { useEffect, useState } from "react";

interface PhotographPictureProps {
  /** in base64 */
  readonly jpeg: string;
  readonly alt: string;
}

/** A photograph by an address of the page's own: the content security policy lets no data: address in. */
export function PhotographPicture({ jpeg, alt }: PhotographPictureProps) {
  const [address, setAddress] = useState<string>();
  useEffect(() => {
    const bytes = Uint8Array.from(atob(jpeg), (character) => character.charCodeAt(0));
    const made = URL.createObjectURL(new Blob([bytes], { type: "image/jpeg" }));
    setAddress(made);
    // Until it is given back the browser holds the picture in memory.
    return () => URL.revokeObjectURL(made);
  }, [jpeg]);
  return <img className="photograph" src={address} alt={alt} />;
}
