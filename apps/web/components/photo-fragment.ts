import { graphql } from '../graphql/document.ts';

/** What a page needs to show a photo: `photoOfShop` takes it as it comes. */
graphql(`
  fragment PhotoShown on Photo {
    id
    url
    largeUrl
    middleUrl
    thumbUrl
    width
    height
    words
    marks {
      kind
      x
      y
      toX
      toY
      words
    }
  }
`);
