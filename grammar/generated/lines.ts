// Made by npm run generate from the notation of the vocabulary. Do not edit.

/** Every line of the language: its section, its id, what can be filled in, the words it may hold, and what may follow a comma. */
export type VocabularyLine =
  | {
    readonly kind: 'build';
    readonly id: 'for';
    readonly group: 'plain';
    readonly slots: { readonly 'client': 'text' };
    readonly words: 'for';
    readonly with: {};
  }
  | {
    readonly kind: 'build';
    readonly id: 'duty';
    readonly group: 'plain';
    readonly slots: {};
    readonly words: 'duty' | 'display' | 'stage' | 'contact';
    readonly with: {
      readonly 'rules': {
        readonly slots: { readonly 'rules': 'rules' };
        readonly words: 'rules';
      };
    };
  }
  | {
    readonly kind: 'build';
    readonly id: 'make';
    readonly group: 'plain';
    readonly slots: { readonly 'make': 'count' };
    readonly words: 'make';
    readonly with: {
      readonly 'spare': {
        readonly slots: { readonly 'spare': 'count' };
        readonly words: 'spare';
      };
    };
  }
  | {
    readonly kind: 'build';
    readonly id: 'units';
    readonly group: 'plain';
    readonly slots: {};
    readonly words: 'units' | 'mm' | 'in';
    readonly with: {
      readonly 'step': {
        readonly slots: {};
        readonly words: 'sixteenths' | 'thirty-seconds' | 'decimal';
      };
    };
  }
  | {
    readonly kind: 'build';
    readonly id: 'due';
    readonly group: 'plain';
    readonly slots: { readonly 'due': 'date' };
    readonly words: 'due';
    readonly with: {};
  }
  | {
    readonly kind: 'wearer';
    readonly id: 'measure';
    readonly group: 'plain';
    readonly slots: { readonly 'measure': 'body measure'; readonly 'value': 'length' };
    readonly words: never;
    readonly with: {};
  }
  | {
    readonly kind: 'wearer';
    readonly id: 'body';
    readonly group: 'plain';
    readonly slots: {};
    readonly words: 'body' | 'man' | 'woman';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'wire';
    readonly group: 'stock';
    readonly slots: { readonly 'metal': 'metal'; readonly 'thickness': 'thickness' };
    readonly words: 'wire';
    readonly with: {
      readonly 'temper': {
        readonly slots: { readonly 'temper': 'temper' };
        readonly words: never;
      };
      readonly 'plating': {
        readonly slots: { readonly 'plating': 'plating' };
        readonly words: never;
      };
      readonly 'grade': {
        readonly slots: { readonly 'grade': 'text' };
        readonly words: 'grade';
      };
    };
  }
  | {
    readonly kind: 'material';
    readonly id: 'metal';
    readonly group: 'stock';
    readonly slots: { readonly 'metal': 'metal'; readonly 'thickness': 'thickness' };
    readonly words: never;
    readonly with: {
      readonly 'temper': {
        readonly slots: { readonly 'temper': 'temper' };
        readonly words: never;
      };
      readonly 'plating': {
        readonly slots: { readonly 'plating': 'plating' };
        readonly words: never;
      };
      readonly 'grade': {
        readonly slots: { readonly 'grade': 'text' };
        readonly words: 'grade';
      };
    };
  }
  | {
    readonly kind: 'material';
    readonly id: 'soft';
    readonly group: 'stock';
    readonly slots: { readonly 'soft': 'soft'; readonly 'thickness': 'leather thickness' };
    readonly words: never;
    readonly with: {
      readonly 'grade': {
        readonly slots: { readonly 'grade': 'text' };
        readonly words: 'grade';
      };
    };
  }
  | {
    readonly kind: 'material';
    readonly id: 'sheet';
    readonly group: 'plain';
    readonly slots: { readonly 'size': 'size' };
    readonly words: 'sheet';
    readonly with: {
      readonly 'price': {
        readonly slots: { readonly 'price': 'number' };
        readonly words: 'price';
      };
      readonly 'have': {
        readonly slots: { readonly 'have': 'count' };
        readonly words: 'have';
      };
    };
  }
  | {
    readonly kind: 'material';
    readonly id: 'offcut';
    readonly group: 'plain';
    readonly slots: { readonly 'size': 'size' };
    readonly words: 'offcut';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'hide';
    readonly group: 'plain';
    readonly slots: { readonly 'area': 'area'; readonly 'file': 'text' };
    readonly words: 'hide';
    readonly with: {
      readonly 'price': {
        readonly slots: { readonly 'price': 'number' };
        readonly words: 'price';
      };
      readonly 'have': {
        readonly slots: { readonly 'have': 'count' };
        readonly words: 'have';
      };
      readonly 'named': {
        readonly slots: { readonly 'which': 'text' };
        readonly words: 'named';
      };
    };
  }
  | {
    readonly kind: 'material';
    readonly id: 'coil';
    readonly group: 'plain';
    readonly slots: { readonly 'coil': 'length' };
    readonly words: 'coil';
    readonly with: {
      readonly 'price': {
        readonly slots: { readonly 'price': 'number' };
        readonly words: 'price';
      };
      readonly 'have': {
        readonly slots: { readonly 'have': 'count' };
        readonly words: 'have';
      };
    };
  }
  | {
    readonly kind: 'material';
    readonly id: 'margin';
    readonly group: 'plain';
    readonly slots: { readonly 'margin': 'length' };
    readonly words: 'margin';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'kerf';
    readonly group: 'plain';
    readonly slots: { readonly 'kerf': 'length' };
    readonly words: 'kerf';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'bend radius';
    readonly group: 'plain';
    readonly slots: { readonly 'radius': 'length' };
    readonly words: 'bend' | 'radius';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'density';
    readonly group: 'plain';
    readonly slots: { readonly 'density': 'density' };
    readonly words: 'density';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'yield';
    readonly group: 'plain';
    readonly slots: { readonly 'yield': 'stress' };
    readonly words: 'yield';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'tensile';
    readonly group: 'plain';
    readonly slots: { readonly 'tensile': 'stress' };
    readonly words: 'tensile';
    readonly with: {};
  }
  | {
    readonly kind: 'material';
    readonly id: 'elongation';
    readonly group: 'plain';
    readonly slots: { readonly 'elongation': 'percent' };
    readonly words: 'elongation';
    readonly with: {};
  }
  | {
    readonly kind: 'rivet';
    readonly id: 'rivet';
    readonly group: 'stock';
    readonly slots: { readonly 'metal': 'metal'; readonly 'size': 'size' };
    readonly words: never;
    readonly with: {
      readonly 'head': {
        readonly slots: { readonly 'head': 'head' };
        readonly words: never;
      };
      readonly 'plating': {
        readonly slots: { readonly 'plating': 'plating' };
        readonly words: never;
      };
      readonly 'grade': {
        readonly slots: { readonly 'grade': 'text' };
        readonly words: 'grade';
      };
      readonly 'temper': {
        readonly slots: { readonly 'temper': 'temper' };
        readonly words: never;
      };
    };
  }
  | {
    readonly kind: 'rivet';
    readonly id: 'pack';
    readonly group: 'plain';
    readonly slots: { readonly 'pack': 'count' };
    readonly words: 'pack';
    readonly with: {
      readonly 'price': {
        readonly slots: { readonly 'price': 'number' };
        readonly words: 'price';
      };
      readonly 'have': {
        readonly slots: { readonly 'have': 'count' };
        readonly words: 'have';
      };
    };
  }
  | {
    readonly kind: 'rivet';
    readonly id: 'washer';
    readonly group: 'plain';
    readonly slots: { readonly 'washer': 'size' };
    readonly words: 'washer';
    readonly with: {
      readonly 'pack': {
        readonly slots: { readonly 'pack': 'count' };
        readonly words: 'pack';
      };
      readonly 'price': {
        readonly slots: { readonly 'price': 'number' };
        readonly words: 'price';
      };
      readonly 'have': {
        readonly slots: { readonly 'have': 'count' };
        readonly words: 'have';
      };
    };
  }
  | {
    readonly kind: 'part';
    readonly id: 'price';
    readonly group: 'plain';
    readonly slots: { readonly 'price': 'number' };
    readonly words: 'price';
    readonly with: {};
  }
  | {
    readonly kind: 'part';
    readonly id: 'mass';
    readonly group: 'plain';
    readonly slots: { readonly 'mass': 'mass' };
    readonly words: 'mass';
    readonly with: {};
  }
  | {
    readonly kind: 'part';
    readonly id: 'pack';
    readonly group: 'plain';
    readonly slots: { readonly 'pack': 'count' };
    readonly words: 'pack';
    readonly with: {
      readonly 'price': {
        readonly slots: { readonly 'price': 'number' };
        readonly words: 'price';
      };
      readonly 'have': {
        readonly slots: { readonly 'have': 'count' };
        readonly words: 'have';
      };
    };
  }
  | {
    readonly kind: 'part';
    readonly id: 'wide';
    readonly group: 'plain';
    readonly slots: { readonly 'wide': 'length' };
    readonly words: 'wide';
    readonly with: {};
  }
  | {
    readonly kind: 'part';
    readonly id: 'make';
    readonly group: 'plain';
    readonly slots: { readonly 'make': 'count' };
    readonly words: 'make';
    readonly with: {
      readonly 'mirrored': {
        readonly slots: {};
        readonly words: 'mirrored';
      };
    };
  }
  | {
    readonly kind: 'rules';
    readonly id: 'book';
    readonly group: 'plain';
    readonly slots: { readonly 'book': 'text' };
    readonly words: 'book';
    readonly with: {
      readonly 'dated': {
        readonly slots: { readonly 'dated': 'date' };
        readonly words: 'dated';
      };
    };
  }
  | {
    readonly kind: 'rules';
    readonly id: 'finished';
    readonly group: 'plain';
    readonly slots: { readonly 'finished': 'length' };
    readonly words: 'finished' | 'at' | 'least';
    readonly with: {
      readonly 'where': {
        readonly slots: {};
        readonly words: 'where' | 'dished' | 'raised' | 'flat';
      };
    };
  }
  | {
    readonly kind: 'rules';
    readonly id: 'start';
    readonly group: 'plain';
    readonly slots: { readonly 'start': 'length' };
    readonly words: 'start' | 'at' | 'least';
    readonly with: {
      readonly 'where': {
        readonly slots: {};
        readonly words: 'where' | 'dished' | 'raised' | 'flat';
      };
    };
  }
  | {
    readonly kind: 'rules';
    readonly id: 'openings';
    readonly group: 'plain';
    readonly slots: { readonly 'openings': 'length' };
    readonly words: 'openings' | 'under';
    readonly with: {};
  }
  | {
    readonly kind: 'rules';
    readonly id: 'rivets';
    readonly group: 'plain';
    readonly slots: { readonly 'rivets': 'length' };
    readonly words: 'rivets' | 'at' | 'most';
    readonly with: {};
  }
  | {
    readonly kind: 'rules';
    readonly id: 'padding';
    readonly group: 'plain';
    readonly slots: { readonly 'padding': 'length' };
    readonly words: 'padding' | 'at' | 'least';
    readonly with: {};
  }
  | {
    readonly kind: 'rules';
    readonly id: 'overlap';
    readonly group: 'plain';
    readonly slots: { readonly 'overlap': 'length' };
    readonly words: 'overlap' | 'at' | 'least';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'from';
    readonly group: 'plain';
    readonly slots: { readonly 'material': 'material' };
    readonly words: 'from';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'make';
    readonly group: 'plain';
    readonly slots: { readonly 'make': 'count' };
    readonly words: 'make';
    readonly with: {
      readonly 'mirrored': {
        readonly slots: {};
        readonly words: 'mirrored';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'fits';
    readonly group: 'plain';
    readonly slots: { readonly 'wearer': 'wearer'; readonly 'region': 'region' };
    readonly words: 'fits';
    readonly with: {
      readonly 'liner': {
        readonly slots: { readonly 'liner': 'length' };
        readonly words: 'liner';
      };
      readonly 'ease': {
        readonly slots: { readonly 'ease': 'length' };
        readonly words: 'ease';
      };
      readonly 'at': {
        readonly slots: { readonly 'height': 'length' };
        readonly words: 'at';
      };
      readonly 'along': {
        readonly slots: { readonly 'edge': 'edge' };
        readonly words: 'along';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'plate';
    readonly group: 'form';
    readonly slots: { readonly 'size': 'size' };
    readonly words: 'plate';
    readonly with: {
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'disc';
    readonly group: 'form';
    readonly slots: { readonly 'diameter': 'length' };
    readonly words: 'disc';
    readonly with: {
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'oval';
    readonly group: 'form';
    readonly slots: { readonly 'size': 'size' };
    readonly words: 'oval';
    readonly with: {
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'strip';
    readonly group: 'form';
    readonly slots: { readonly 'size': 'size' };
    readonly words: 'strip';
    readonly with: {
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'outline';
    readonly group: 'form';
    readonly slots: { readonly 'file': 'text' };
    readonly words: 'outline';
    readonly with: {
      readonly 'named': {
        readonly slots: { readonly 'which': 'text' };
        readonly words: 'named';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'dome';
    readonly group: 'form';
    readonly slots: { readonly 'diameter': 'length' };
    readonly words: 'dome';
    readonly with: {
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'oval dome';
    readonly group: 'form';
    readonly slots: { readonly 'size': 'size' };
    readonly words: 'oval' | 'dome';
    readonly with: {
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'half dome';
    readonly group: 'form';
    readonly slots: { readonly 'girth': 'length'; readonly 'size': 'size' };
    readonly words: 'half' | 'dome' | 'round';
    readonly with: {
      readonly 'long': {
        readonly slots: { readonly 'long': 'length' };
        readonly words: 'long';
      };
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'gore dome';
    readonly group: 'form';
    readonly slots: { readonly 'size': 'dimensions' };
    readonly words: 'gore' | 'dome';
    readonly with: {
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'gores': {
        readonly slots: { readonly 'gores': 'count' };
        readonly words: 'gores';
      };
      readonly 'gore': {
        readonly slots: { readonly 'which': 'count' };
        readonly words: 'gore';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'cylinder';
    readonly group: 'form';
    readonly slots: { readonly 'girth': 'length' };
    readonly words: 'cylinder' | 'round';
    readonly with: {
      readonly 'high': {
        readonly slots: { readonly 'high': 'length' };
        readonly words: 'high';
      };
      readonly 'wrap': {
        readonly slots: { readonly 'wrap': 'angle' };
        readonly words: 'wrap';
      };
      readonly 'long': {
        readonly slots: { readonly 'long': 'length' };
        readonly words: 'long';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'cone';
    readonly group: 'form';
    readonly slots: { readonly 'top': 'length'; readonly 'bottom': 'length' };
    readonly words: 'cone' | 'round' | 'to';
    readonly with: {
      readonly 'high': {
        readonly slots: { readonly 'high': 'length' };
        readonly words: 'high';
      };
      readonly 'wrap': {
        readonly slots: { readonly 'wrap': 'angle' };
        readonly words: 'wrap';
      };
      readonly 'long': {
        readonly slots: { readonly 'long': 'length' };
        readonly words: 'long';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'form';
    readonly group: 'form';
    readonly slots: { readonly 'wrap': 'angle' };
    readonly words: 'form' | 'wrap' | 'half';
    readonly with: {
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'trim';
    readonly group: 'form';
    readonly slots: { readonly 'edge': 'edge' };
    readonly words: 'trim' | 'along';
    readonly with: {
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'inset': {
        readonly slots: { readonly 'inset': 'length' };
        readonly words: 'inset';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'comb';
    readonly group: 'form';
    readonly slots: { readonly 'edge': 'edge' };
    readonly words: 'comb' | 'along';
    readonly with: {
      readonly 'high': {
        readonly slots: { readonly 'high': 'length' };
        readonly words: 'high';
      };
      readonly 'foot': {
        readonly slots: { readonly 'foot': 'length' };
        readonly words: 'foot';
      };
      readonly 'radius': {
        readonly slots: { readonly 'radius': 'length' };
        readonly words: 'radius';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'lies';
    readonly group: 'form';
    readonly slots: { readonly 'neighbour': 'piece' };
    readonly words: 'lies' | 'under' | 'over';
    readonly with: {
      readonly 'gap': {
        readonly slots: { readonly 'gap': 'length' };
        readonly words: 'gap';
      };
      readonly 'high': {
        readonly slots: { readonly 'high': 'length' };
        readonly words: 'high';
      };
      readonly 'wrap': {
        readonly slots: { readonly 'wrap': 'angle' };
        readonly words: 'wrap';
      };
      readonly 'long': {
        readonly slots: { readonly 'long': 'length' };
        readonly words: 'long';
      };
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'from': {
        readonly slots: { readonly 'edge': 'edge'; readonly 'to': 'length' };
        readonly words: 'from' | 'to' | 'up' | 'down';
      };
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
      readonly 'outside': {
        readonly slots: {};
        readonly words: 'outside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'like';
    readonly group: 'form';
    readonly slots: { readonly 'piece': 'piece' };
    readonly words: 'like';
    readonly with: {
      readonly 'scaled': {
        readonly slots: { readonly 'scale': 'number' };
        readonly words: 'scaled';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'to';
    readonly group: 'outline';
    readonly slots: { readonly 'right': 'length'; readonly 'up': 'length' };
    readonly words: 'to' | 'right' | 'left' | 'and' | 'up' | 'down';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'arc to';
    readonly group: 'outline';
    readonly slots: { readonly 'right': 'length'; readonly 'up': 'length' };
    readonly words: 'arc' | 'to' | 'right' | 'left' | 'and' | 'up' | 'down';
    readonly with: {
      readonly 'radius': {
        readonly slots: { readonly 'radius': 'length' };
        readonly words: 'radius';
      };
      readonly 'hollow': {
        readonly slots: {};
        readonly words: 'hollow';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'level';
    readonly group: 'level';
    readonly slots: { readonly 'height': 'length' };
    readonly words: 'at';
    readonly with: {
      readonly 'round': {
        readonly slots: { readonly 'girth': 'length' };
        readonly words: 'round';
      };
      readonly 'long': {
        readonly slots: { readonly 'long': 'length' };
        readonly words: 'long';
      };
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'offset': {
        readonly slots: { readonly 'offset': 'length' };
        readonly words: 'offset' | 'front' | 'back';
      };
      readonly 'ridge': {
        readonly slots: {};
        readonly words: 'ridge';
      };
      readonly 'point': {
        readonly slots: {};
        readonly words: 'point';
      };
      readonly 'flat': {
        readonly slots: {};
        readonly words: 'flat';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'dish';
    readonly group: 'working';
    readonly slots: {};
    readonly words: 'dish';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'raise';
    readonly group: 'working';
    readonly slots: {};
    readonly words: 'raise';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'dish then raise';
    readonly group: 'working';
    readonly slots: {};
    readonly words: 'dish' | 'then' | 'raise';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'flute';
    readonly group: 'working';
    readonly slots: { readonly 'count': 'count' };
    readonly words: 'flute';
    readonly with: {
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'inward': {
        readonly slots: {};
        readonly words: 'inward';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'crease';
    readonly group: 'working';
    readonly slots: { readonly 'edge': 'edge' };
    readonly words: 'crease' | 'along';
    readonly with: {
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'radius': {
        readonly slots: { readonly 'radius': 'length' };
        readonly words: 'radius';
      };
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'inward': {
        readonly slots: {};
        readonly words: 'inward';
      };
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'flare';
    readonly group: 'working';
    readonly slots: { readonly 'edge': 'edge' };
    readonly words: 'flare';
    readonly with: {
      readonly 'angle': {
        readonly slots: { readonly 'angle': 'angle' };
        readonly words: never;
      };
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'bend';
    readonly group: 'working';
    readonly slots: { readonly 'distance': 'length'; readonly 'edge': 'edge' };
    readonly words: 'bend' | 'from';
    readonly with: {
      readonly 'angle': {
        readonly slots: { readonly 'angle': 'angle' };
        readonly words: never;
      };
      readonly 'radius': {
        readonly slots: { readonly 'radius': 'length' };
        readonly words: 'radius';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'hold';
    readonly group: 'working';
    readonly slots: { readonly 'edge': 'edge' };
    readonly words: 'hold';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'planish';
    readonly group: 'working';
    readonly slots: {};
    readonly words: 'planish';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'texture';
    readonly group: 'working';
    readonly slots: {};
    readonly words: 'texture';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'harden';
    readonly group: 'working';
    readonly slots: { readonly 'heat': 'temperature' };
    readonly words: 'harden';
    readonly with: {
      readonly 'quench': {
        readonly slots: { readonly 'medium': 'medium' };
        readonly words: 'quench';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'temper';
    readonly group: 'working';
    readonly slots: { readonly 'heat': 'temperature' };
    readonly words: 'temper';
    readonly with: {
      readonly 'for': {
        readonly slots: { readonly 'time': 'time' };
        readonly words: 'for';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'anneal';
    readonly group: 'working';
    readonly slots: { readonly 'heat': 'temperature' };
    readonly words: 'anneal';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'edge rolled';
    readonly group: 'edge';
    readonly slots: { readonly 'edge': 'edge'; readonly 'wire': 'material' };
    readonly words: 'edge' | 'rolled' | 'over';
    readonly with: {
      readonly 'hollow': {
        readonly slots: { readonly 'hollow': 'length' };
        readonly words: 'hollow';
      };
      readonly 'outward': {
        readonly slots: {};
        readonly words: 'outward';
      };
      readonly 'inward': {
        readonly slots: {};
        readonly words: 'inward';
      };
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'edge hemmed';
    readonly group: 'edge';
    readonly slots: { readonly 'edge': 'edge'; readonly 'hem': 'length' };
    readonly words: 'edge' | 'hemmed';
    readonly with: {
      readonly 'double': {
        readonly slots: {};
        readonly words: 'double';
      };
      readonly 'outward': {
        readonly slots: {};
        readonly words: 'outward';
      };
      readonly 'inward': {
        readonly slots: {};
        readonly words: 'inward';
      };
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'edge rounded';
    readonly group: 'edge';
    readonly slots: { readonly 'edge': 'edge'; readonly 'radius': 'length' };
    readonly words: 'edge' | 'rounded';
    readonly with: {
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'edges rounded';
    readonly group: 'edge';
    readonly slots: { readonly 'radius': 'length' };
    readonly words: 'edges' | 'rounded';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'edge long';
    readonly group: 'edge';
    readonly slots: { readonly 'edge': 'edge'; readonly 'long': 'length' };
    readonly words: 'edge' | 'long';
    readonly with: {
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'edge soft';
    readonly group: 'edge';
    readonly slots: { readonly 'edge': 'edge'; readonly 'material': 'material' };
    readonly words: 'edge' | 'soft';
    readonly with: {
      readonly 'over': {
        readonly slots: { readonly 'cord': 'length'; readonly 'cord-material': 'material' };
        readonly words: 'over' | 'cord';
      };
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'cut';
    readonly group: 'edge';
    readonly slots: { readonly 'name': 'new name'; readonly 'from': 'length'; readonly 'edge': 'edge'; readonly 'to': 'length'; readonly 'edge2': 'edge' };
    readonly words: 'cut' | 'from' | 'on' | 'to';
    readonly with: {
      readonly 'deep': {
        readonly slots: { readonly 'deep': 'length' };
        readonly words: 'deep';
      };
      readonly 'mirrored': {
        readonly slots: {};
        readonly words: 'mirrored';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'slot';
    readonly group: 'opening';
    readonly slots: { readonly 'name': 'new name'; readonly 'size': 'size' };
    readonly words: 'slot';
    readonly with: {
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
      readonly 'before forming': {
        readonly slots: {};
        readonly words: 'before' | 'forming';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'hole';
    readonly group: 'opening';
    readonly slots: { readonly 'name': 'new name'; readonly 'diameter': 'length' };
    readonly words: 'hole';
    readonly with: {
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
      readonly 'before forming': {
        readonly slots: {};
        readonly words: 'before' | 'forming';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'holes';
    readonly group: 'opening';
    readonly slots: { readonly 'name': 'new name'; readonly 'holes': 'count of' };
    readonly words: 'holes';
    readonly with: {
      readonly 'along': {
        readonly slots: { readonly 'edge': 'edge' };
        readonly words: 'along';
      };
      readonly 'inset': {
        readonly slots: { readonly 'inset': 'length' };
        readonly words: 'inset';
      };
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
      readonly 'before forming': {
        readonly slots: {};
        readonly words: 'before' | 'forming';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'breaths';
    readonly group: 'opening';
    readonly slots: { readonly 'name': 'new name'; readonly 'holes': 'count of' };
    readonly words: 'breaths';
    readonly with: {
      readonly 'rows': {
        readonly slots: { readonly 'rows': 'count' };
        readonly words: 'rows';
      };
      readonly 'pitch': {
        readonly slots: { readonly 'pitch': 'length' };
        readonly words: 'pitch';
      };
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
      readonly 'before forming': {
        readonly slots: {};
        readonly words: 'before' | 'forming';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'pierce';
    readonly group: 'opening';
    readonly slots: { readonly 'name': 'new name'; readonly 'file': 'text' };
    readonly words: 'pierce';
    readonly with: {
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
      readonly 'before forming': {
        readonly slots: {};
        readonly words: 'before' | 'forming';
      };
      readonly 'named': {
        readonly slots: { readonly 'which': 'text' };
        readonly words: 'named';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'template';
    readonly group: 'plain';
    readonly slots: { readonly 'height': 'length'; readonly 'edge': 'edge' };
    readonly words: 'template' | 'at' | 'along';
    readonly with: {
      readonly 'inside': {
        readonly slots: {};
        readonly words: 'inside';
      };
    };
  }
  | {
    readonly kind: 'piece';
    readonly id: 'blank';
    readonly group: 'plain';
    readonly slots: { readonly 'diameter': 'length'; readonly 'size': 'dimensions' };
    readonly words: 'blank' | 'disc';
    readonly with: {};
  }
  | {
    readonly kind: 'piece';
    readonly id: 'grain';
    readonly group: 'plain';
    readonly slots: {};
    readonly words: 'grain' | 'up' | 'across';
    readonly with: {};
  }
  | {
    readonly kind: 'seam';
    readonly id: 'joins';
    readonly group: 'plain';
    readonly slots: { readonly 'pieces': 'copy' };
    readonly words: 'joins';
    readonly with: {};
  }
  | {
    readonly kind: 'seam';
    readonly id: 'along';
    readonly group: 'plain';
    readonly slots: { readonly 'edge': 'edge' };
    readonly words: 'along';
    readonly with: {
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'seam';
    readonly id: 'rivets';
    readonly group: 'joining';
    readonly slots: { readonly 'rivet': 'rivet' };
    readonly words: 'rivets';
    readonly with: {
      readonly 'every': {
        readonly slots: { readonly 'every': 'length' };
        readonly words: 'every';
      };
      readonly 'count': {
        readonly slots: { readonly 'count': 'count' };
        readonly words: 'count';
      };
      readonly 'inset': {
        readonly slots: { readonly 'inset': 'length' };
        readonly words: 'inset';
      };
      readonly 'peened': {
        readonly slots: {};
        readonly words: 'peened' | 'domed' | 'flat' | 'flush';
      };
      readonly 'head inside': {
        readonly slots: {};
        readonly words: 'head' | 'inside';
      };
      readonly 'washer': {
        readonly slots: {};
        readonly words: 'washer' | 'inside' | 'outside';
      };
      readonly 'from': {
        readonly slots: { readonly 'from': 'length'; readonly 'to': 'length' };
        readonly words: 'from' | 'to';
      };
    };
  }
  | {
    readonly kind: 'seam';
    readonly id: 'shares';
    readonly group: 'plain';
    readonly slots: { readonly 'seam': 'seam'; readonly 'first': 'count'; readonly 'second': 'count' };
    readonly words: 'shares' | 'and';
    readonly with: {};
  }
  | {
    readonly kind: 'seam';
    readonly id: 'weld';
    readonly group: 'joining';
    readonly slots: {};
    readonly words: 'weld';
    readonly with: {};
  }
  | {
    readonly kind: 'seam';
    readonly id: 'solder';
    readonly group: 'joining';
    readonly slots: {};
    readonly words: 'solder';
    readonly with: {
      readonly 'with': {
        readonly slots: { readonly 'solder': 'text' };
        readonly words: 'with';
      };
    };
  }
  | {
    readonly kind: 'seam';
    readonly id: 'lace';
    readonly group: 'joining';
    readonly slots: { readonly 'lace': 'text' };
    readonly words: 'lace';
    readonly with: {};
  }
  | {
    readonly kind: 'seam';
    readonly id: 'sew';
    readonly group: 'joining';
    readonly slots: { readonly 'thread': 'text' };
    readonly words: 'sew';
    readonly with: {};
  }
  | {
    readonly kind: 'seam';
    readonly id: 'strap';
    readonly group: 'joining';
    readonly slots: { readonly 'material': 'material' };
    readonly words: 'strap';
    readonly with: {
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'long': {
        readonly slots: { readonly 'long': 'length' };
        readonly words: 'long';
      };
      readonly 'buckle': {
        readonly slots: { readonly 'part': 'part' };
        readonly words: 'buckle';
      };
      readonly 'count': {
        readonly slots: { readonly 'count': 'count' };
        readonly words: 'count';
      };
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
    };
  }
  | {
    readonly kind: 'seam';
    readonly id: 'overlap';
    readonly group: 'plain';
    readonly slots: { readonly 'overlap': 'length' };
    readonly words: 'overlap';
    readonly with: {};
  }
  | {
    readonly kind: 'hinge';
    readonly id: 'joins';
    readonly group: 'plain';
    readonly slots: { readonly 'edges': 'edge' };
    readonly words: 'joins';
    readonly with: {};
  }
  | {
    readonly kind: 'hinge';
    readonly id: 'knuckles';
    readonly group: 'plain';
    readonly slots: { readonly 'knuckles': 'count' };
    readonly words: 'knuckles';
    readonly with: {
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
    };
  }
  | {
    readonly kind: 'hinge';
    readonly id: 'over';
    readonly group: 'plain';
    readonly slots: { readonly 'wire': 'material' };
    readonly words: 'over';
    readonly with: {};
  }
  | {
    readonly kind: 'hinge';
    readonly id: 'bought';
    readonly group: 'plain';
    readonly slots: { readonly 'part': 'part' };
    readonly words: 'bought';
    readonly with: {
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'barrel': {
        readonly slots: { readonly 'barrel': 'length' };
        readonly words: 'barrel';
      };
      readonly 'rivets': {
        readonly slots: { readonly 'rivet': 'rivet' };
        readonly words: 'rivets';
      };
      readonly 'count': {
        readonly slots: { readonly 'count': 'count' };
        readonly words: 'count';
      };
    };
  }
  | {
    readonly kind: 'hinge';
    readonly id: 'swing';
    readonly group: 'plain';
    readonly slots: { readonly 'from': 'angle'; readonly 'to': 'angle' };
    readonly words: 'swing' | 'to';
    readonly with: {};
  }
  | {
    readonly kind: 'joint';
    readonly id: 'plates';
    readonly group: 'plain';
    readonly slots: { readonly 'plates': 'copy' };
    readonly words: 'plates';
    readonly with: {};
  }
  | {
    readonly kind: 'joint';
    readonly id: 'pivots';
    readonly group: 'plain';
    readonly slots: { readonly 'rivet': 'rivet' };
    readonly words: 'pivots';
    readonly with: {
      readonly 'inset': {
        readonly slots: { readonly 'inset': 'length' };
        readonly words: 'inset';
      };
      readonly 'side': {
        readonly slots: { readonly 'side': 'side' };
        readonly words: never;
      };
      readonly 'end': {
        readonly slots: { readonly 'end': 'length' };
        readonly words: 'end';
      };
      readonly 'washer': {
        readonly slots: {};
        readonly words: 'washer';
      };
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
    };
  }
  | {
    readonly kind: 'joint';
    readonly id: 'slides';
    readonly group: 'plain';
    readonly slots: { readonly 'rivet': 'rivet' };
    readonly words: 'slides';
    readonly with: {
      readonly 'inset': {
        readonly slots: { readonly 'inset': 'length' };
        readonly words: 'inset';
      };
      readonly 'side': {
        readonly slots: { readonly 'side': 'side' };
        readonly words: never;
      };
      readonly 'end': {
        readonly slots: { readonly 'end': 'length' };
        readonly words: 'end';
      };
      readonly 'washer': {
        readonly slots: {};
        readonly words: 'washer';
      };
      readonly 'play': {
        readonly slots: { readonly 'play': 'length' };
        readonly words: 'play';
      };
      readonly 'at': {
        readonly slots: { readonly 'across': 'length'; readonly 'way': 'side'; readonly 'line': 'edge'; readonly 'along': 'length'; readonly 'way2': 'side'; readonly 'line2': 'edge' };
        readonly words: 'at' | 'from' | 'above' | 'below' | 'of' | 'and';
      };
    };
  }
  | {
    readonly kind: 'joint';
    readonly id: 'leathers';
    readonly group: 'plain';
    readonly slots: { readonly 'material': 'material' };
    readonly words: 'leathers';
    readonly with: {
      readonly 'wide': {
        readonly slots: { readonly 'wide': 'length' };
        readonly words: 'wide';
      };
      readonly 'rivets': {
        readonly slots: { readonly 'rivet': 'rivet' };
        readonly words: 'rivets';
      };
      readonly 'count': {
        readonly slots: { readonly 'count': 'count' };
        readonly words: 'count';
      };
    };
  }
  | {
    readonly kind: 'joint';
    readonly id: 'bends';
    readonly group: 'plain';
    readonly slots: { readonly 'from': 'angle'; readonly 'to': 'angle' };
    readonly words: 'bends' | 'to';
    readonly with: {};
  }
  | {
    readonly kind: 'joint';
    readonly id: 'lap';
    readonly group: 'plain';
    readonly slots: { readonly 'lap': 'length' };
    readonly words: 'overlap';
    readonly with: {};
  }
  | {
    readonly kind: 'joint';
    readonly id: 'overlap';
    readonly group: 'plain';
    readonly slots: { readonly 'overlap': 'length' };
    readonly words: 'overlap' | 'at' | 'least';
    readonly with: {};
  }
  | {
    readonly kind: 'joint';
    readonly id: 'swings';
    readonly group: 'plain';
    readonly slots: { readonly 'from': 'angle'; readonly 'to': 'angle' };
    readonly words: 'swings' | 'to';
    readonly with: {
      readonly 'while': {
        readonly slots: { readonly 'joint': 'joint'; readonly 'angle': 'angle' };
        readonly words: 'while' | 'at';
      };
    };
  }
  | {
    readonly kind: 'joint';
    readonly id: 'shares';
    readonly group: 'plain';
    readonly slots: { readonly 'joint': 'joint' };
    readonly words: 'shares';
    readonly with: {
      readonly 'inset': {
        readonly slots: { readonly 'inset': 'length' };
        readonly words: 'inset';
      };
      readonly 'end': {
        readonly slots: { readonly 'end': 'length' };
        readonly words: 'end';
      };
    };
  }
  | {
    readonly kind: 'joint';
    readonly id: 'holds';
    readonly group: 'plain';
    readonly slots: { readonly 'at': 'angle' };
    readonly words: 'holds';
    readonly with: {};
  }
  | {
    readonly kind: 'joint';
    readonly id: 'locks';
    readonly group: 'plain';
    readonly slots: { readonly 'part': 'part' };
    readonly words: 'locks';
    readonly with: {
      readonly 'at angle': {
        readonly slots: { readonly 'angle': 'angle' };
        readonly words: 'at';
      };
      readonly 'rivets': {
        readonly slots: { readonly 'rivet': 'rivet' };
        readonly words: 'rivets';
      };
      readonly 'count': {
        readonly slots: { readonly 'count': 'count' };
        readonly words: 'count';
      };
    };
  }
  | {
    readonly kind: 'joint';
    readonly id: 'make';
    readonly group: 'plain';
    readonly slots: { readonly 'make': 'count' };
    readonly words: 'make';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'on';
    readonly group: 'plain';
    readonly slots: { readonly 'surfaces': 'surface' };
    readonly words: 'on';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'grind';
    readonly group: 'step';
    readonly slots: { readonly 'grits': 'grit' };
    readonly words: 'grind';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'sand';
    readonly group: 'step';
    readonly slots: { readonly 'grits': 'grit' };
    readonly words: 'sand';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'polish';
    readonly group: 'step';
    readonly slots: {};
    readonly words: 'polish';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'blacken';
    readonly group: 'step';
    readonly slots: {};
    readonly words: 'blacken';
    readonly with: {
      readonly 'hot': {
        readonly slots: {};
        readonly words: 'hot';
      };
      readonly 'cold': {
        readonly slots: {};
        readonly words: 'cold';
      };
    };
  }
  | {
    readonly kind: 'finish';
    readonly id: 'blue';
    readonly group: 'step';
    readonly slots: { readonly 'heat': 'temperature' };
    readonly words: 'blue';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'patina';
    readonly group: 'step';
    readonly slots: { readonly 'recipe': 'text' };
    readonly words: 'patina';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'prime';
    readonly group: 'step';
    readonly slots: {};
    readonly words: 'prime';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'paint';
    readonly group: 'step';
    readonly slots: { readonly 'colour': 'text' };
    readonly words: 'paint';
    readonly with: {
      readonly 'coats': {
        readonly slots: { readonly 'coats': 'count' };
        readonly words: 'coats';
      };
    };
  }
  | {
    readonly kind: 'finish';
    readonly id: 'dye';
    readonly group: 'step';
    readonly slots: { readonly 'colour': 'text' };
    readonly words: 'dye';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'oil';
    readonly group: 'step';
    readonly slots: {};
    readonly words: 'oil';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'wax';
    readonly group: 'step';
    readonly slots: {};
    readonly words: 'wax';
    readonly with: {};
  }
  | {
    readonly kind: 'finish';
    readonly id: 'lacquer';
    readonly group: 'step';
    readonly slots: {};
    readonly words: 'lacquer';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'rate';
    readonly group: 'plain';
    readonly slots: { readonly 'rate': 'number' };
    readonly words: 'rate';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'currency';
    readonly group: 'plain';
    readonly slots: { readonly 'currency': 'currency' };
    readonly words: 'currency';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'gauges';
    readonly group: 'plain';
    readonly slots: {};
    readonly words: 'gauges' | 'us' | 'uk';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'shear';
    readonly group: 'plain';
    readonly slots: { readonly 'metal': 'metal'; readonly 'thickness': 'thickness' };
    readonly words: 'shear' | 'up' | 'to';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'punch';
    readonly group: 'plain';
    readonly slots: { readonly 'sizes': 'length' };
    readonly words: 'punch';
    readonly with: {
      readonly 'up to': {
        readonly slots: { readonly 'metal': 'metal'; readonly 'thickness': 'thickness' };
        readonly words: 'up' | 'to';
      };
    };
  }
  | {
    readonly kind: 'shop';
    readonly id: 'blade';
    readonly group: 'plain';
    readonly slots: { readonly 'teeth': 'teeth' };
    readonly words: 'blade';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'heat';
    readonly group: 'plain';
    readonly slots: { readonly 'source': 'heat source' };
    readonly words: 'heat';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'wire';
    readonly group: 'plain';
    readonly slots: { readonly 'sizes': 'length' };
    readonly words: 'wire';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'overhead';
    readonly group: 'plain';
    readonly slots: { readonly 'overhead': 'percent' };
    readonly words: 'overhead';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'margin';
    readonly group: 'plain';
    readonly slots: { readonly 'margin': 'percent' };
    readonly words: 'margin';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'tax';
    readonly group: 'plain';
    readonly slots: { readonly 'tax': 'percent' };
    readonly words: 'tax';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'valid';
    readonly group: 'plain';
    readonly slots: { readonly 'days': 'count' };
    readonly words: 'valid' | 'days';
    readonly with: {};
  }
  | {
    readonly kind: 'shop';
    readonly id: 'terms';
    readonly group: 'plain';
    readonly slots: { readonly 'terms': 'text' };
    readonly words: 'terms';
    readonly with: {};
  }
  | {
    readonly kind: 'order';
    readonly id: 'first';
    readonly group: 'plain';
    readonly slots: { readonly 'first': 'step' };
    readonly words: 'first';
    readonly with: {
      readonly 'then': {
        readonly slots: { readonly 'then': 'step' };
        readonly words: 'then';
      };
    };
  }
  | {
    readonly kind: 'order';
    readonly id: 'together';
    readonly group: 'plain';
    readonly slots: { readonly 'pieces': 'copy' };
    readonly words: 'together';
    readonly with: {};
  }
  | {
    readonly kind: 'order';
    readonly id: 'hours';
    readonly group: 'plain';
    readonly slots: { readonly 'step': 'step'; readonly 'time': 'time' };
    readonly words: 'hours';
    readonly with: {};
  }
  | {
    readonly kind: 'log';
    readonly id: 'dated';
    readonly group: 'plain';
    readonly slots: { readonly 'dated': 'date' };
    readonly words: 'dated';
    readonly with: {};
  }
  | {
    readonly kind: 'log';
    readonly id: 'copy';
    readonly group: 'plain';
    readonly slots: { readonly 'copy': 'count' };
    readonly words: 'copy';
    readonly with: {};
  }
  | {
    readonly kind: 'log';
    readonly id: 'found';
    readonly group: 'plain';
    readonly slots: { readonly 'piece': 'copy'; readonly 'value': 'dimensions' };
    readonly words: 'found' | 'crown' | 'edge' | 'blank' | 'rim' | 'middle' | 'top' | 'bottom';
    readonly with: {};
  }
  | {
    readonly kind: 'log';
    readonly id: 'found mass';
    readonly group: 'plain';
    readonly slots: { readonly 'piece': 'copy'; readonly 'mass': 'mass' };
    readonly words: 'found' | 'mass';
    readonly with: {};
  }
  | {
    readonly kind: 'log';
    readonly id: 'took';
    readonly group: 'plain';
    readonly slots: { readonly 'step': 'step'; readonly 'time': 'time' };
    readonly words: 'took';
    readonly with: {};
  };
