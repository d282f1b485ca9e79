"use strict";
// The links name the manual's folder; where the library stands below the host's root, that part comes before it.
for (const link of document.querySelectorAll("a")) {
  const target = new URL(link.href);
  const at = location.pathname.indexOf("/" + target.pathname.split("/")[1] + "/");
  if (at > 0) link.href = location.pathname.slice(0, at) + target.pathname + target.hash;
}
