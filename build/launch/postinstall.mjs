console.log('postinstall');
