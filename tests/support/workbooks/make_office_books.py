# Types the tables of a folder into a workbook by way of LibreOffice and saves it as .xlsx and .ods; see README.md here.
import re, uno, csv, glob, os, sys, subprocess, time
from com.sun.star.beans import PropertyValue
src, out = sys.argv[1], sys.argv[2]
p = subprocess.Popen(['soffice','--headless','--norestore','--accept=socket,host=localhost,port=2143;urp;'])
ctx = uno.getComponentContext()
res = ctx.ServiceManager.createInstanceWithContext('com.sun.star.bridge.UnoUrlResolver', ctx)
for i in range(60):
    try:
        c = res.resolve('uno:socket,host=localhost,port=2143;urp;StarOffice.ComponentContext'); break
    except Exception: time.sleep(1)
desk = c.ServiceManager.createInstanceWithContext('com.sun.star.frame.Desktop', c)
def pv(n,v):
    x = PropertyValue(); x.Name=n; x.Value=v; return x
doc = desk.loadComponentFromURL('private:factory/scalc','_blank',0,(pv('Hidden',True),))
sheets = doc.Sheets
from com.sun.star.lang import Locale
fmts=doc.NumberFormats; loc=Locale(); clock=fmts.queryKey('HH:MM',loc,False)
if clock==-1: clock=fmts.addNew('HH:MM',loc)
names = sorted(os.path.basename(f)[:-4] for f in glob.glob(src+'/*.csv'))
for i,n in enumerate(names):
    sheets.insertNewByName(n.capitalize() if n!='routes' else 'ROUTES', i)
for n in list(sheets.ElementNames):
    if n.lower() not in names: sheets.removeByName(n)
sheets.insertNewByName('My notes', len(names))
sheets.getByName('My notes').getCellByPosition(0,0).setString('Measured in spring; ask the night shift about the racks.')
for n in names:
    sh = sheets.getByName(n.capitalize() if n!='routes' else 'ROUTES')
    text = open(f'{src}/{n}.csv').read().split('\n')
    for r,line in enumerate(text):
        if line.startswith('#'): sh.getCellByPosition(0,r).setString(line); continue
        if not line: continue
        for col,v in enumerate(next(csv.reader([line]))):
            if v == '': continue
            x = sh.getCellByPosition(col,r); x.setFormula(v)
            # What the office program itself does to a time that is typed.
            if re.match(r'^\d\d:\d\d$', v): x.NumberFormat = clock
# Some values as formulas of the user's, with results that the office program works out.
r = sheets.getByName('ROUTES')
cell = r.getCellByPosition(3,3); v = int(cell.Value)
print(v, cell.String)
cell.setFormula(f'={v}/2+{v}/2')
for ext, flt in (('xlsx','Calc MS Excel 2007 XML'),('ods','calc8')):
    doc.storeToURL('file://'+out+'.'+ext,(pv('FilterName',flt),))
doc.close(True)
try: desk.terminate()
except Exception: pass
