using System.Collections.Frozen;

namespace Portwitness.Labels;

/// <summary>
/// Unicode's compatibility folding (NFKC) beyond full-width forms: letter-like signs, Roman numerals, squared units, ligatures, and Chinese
/// characters in the disguise of a radical or of an old code, as text from pages and PDF files has them. (Unicode character
/// database 14.0; the runtime's own normalisation does nothing with InvariantGlobalization.)
/// </summary>
/// <remarks>
/// What is left out is left out because it would join the number or the name beside it ("1½A" is not 11/2 A, "3A²" not 3A2, "C²" not C2),
/// or because no language that is read has it; CompatibilityTests has the list.
/// </remarks>
internal static class Compatibility
{
    // Each word: a character, and what it stands for.
    private const string Words = """
        ſs ĲIJ ĳij ĿL· ŀl· ℀a/c ℁a/s ℂC ℃°C ℅c/o ℆c/u ℇƐ ℉°F ℊg ℋH ℌH ℍH ℎh ℏħ ℐI ℑI ℒL ℓl ℕN №No ℙP ℚQ ℛR ℜR ℝR ℡TEL ℤZ ΩΩ ℨZ
        KK ÅÅ ℬB ℭC ℯe ℰE ℱF ℳM ℴo ℹi ℻FAX ℼπ ℽγ ℾΓ ℿΠ ⅀∑ ⅅD ⅆd ⅇe ⅈi ⅉj ⅠI ⅡII ⅢIII ⅣIV ⅤV ⅥVI ⅦVII ⅧVIII ⅨIX ⅩX ⅪXI ⅫXII ⅬL
        ⅭC ⅮD ⅯM ⅰi ⅱii ⅲiii ⅳiv ⅴv ⅵvi ⅶvii ⅷviii ⅸix ⅹx ⅺxi ⅻxii ⅼl ⅽc ⅾd ⅿm ㍱hPa ㍲da ㍳AU ㍴bar ㍵oV ㍶pc ㍷dm ㍸dm2
        ㍹dm3 ㍺IU ㎀pA ㎁nA ㎂μA ㎃mA ㎄kA ㎅KB ㎆MB ㎇GB ㎈cal ㎉kcal ㎊pF ㎋nF ㎌μF ㎍μg ㎎mg ㎏kg ㎐Hz ㎑kHz ㎒MHz ㎓GHz
        ㎔THz ㎕μl ㎖ml ㎗dl ㎘kl ㎙fm ㎚nm ㎛μm ㎜mm ㎝cm ㎞km ㎟mm2 ㎠cm2 ㎡m2 ㎢km2 ㎣mm3 ㎤cm3 ㎥m3 ㎦km3 ㎧m∕s ㎨m∕s2
        ㎩Pa ㎪kPa ㎫MPa ㎬GPa ㎭rad ㎮rad∕s ㎯rad∕s2 ㎰ps ㎱ns ㎲μs ㎳ms ㎴pV ㎵nV ㎶μV ㎷mV ㎸kV ㎹MV ㎺pW ㎻nW ㎼μW ㎽mW
        ㎾kW ㎿MW ㏀kΩ ㏁MΩ ㏂a.m. ㏃Bq ㏄cc ㏅cd ㏆C∕kg ㏇Co. ㏈dB ㏉Gy ㏊ha ㏋HP ㏌in ㏍KK ㏎KM ㏏kt ㏐lm ㏑ln ㏒log ㏓lx
        ㏔mb ㏕mil ㏖mol ㏗PH ㏘p.m. ㏙PPM ㏚PR ㏛sr ㏜Sv ㏝Wb ㏞V∕m ㏟A∕m ㏿gal ﬀff ﬁfi ﬂfl ﬃffi ﬄffl ﬅst ﬆst
        """;

    // A character, the one that it stands for, and so on.
    private const string Pairs = """
        ⺟母⻳龟⼀一⼁丨⼂丶⼃丿⼄乙⼅亅⼆二⼇亠⼈人⼉儿⼊入⼋八⼌冂⼍冖⼎冫⼏几⼐凵⼑刀⼒力⼓勹⼔匕⼕匚⼖匸⼗十⼘卜⼙卩⼚厂
        ⼛厶⼜又⼝口⼞囗⼟土⼠士⼡夂⼢夊⼣夕⼤大⼥女⼦子⼧宀⼨寸⼩小⼪尢⼫尸⼬屮⼭山⼮巛⼯工⼰己⼱巾⼲干⼳幺⼴广⼵廴⼶廾⼷弋
        ⼸弓⼹彐⼺彡⼻彳⼼心⼽戈⼾戶⼿手⽀支⽁攴⽂文⽃斗⽄斤⽅方⽆无⽇日⽈曰⽉月⽊木⽋欠⽌止⽍歹⽎殳⽏毋⽐比⽑毛⽒氏⽓气⽔水
        ⽕火⽖爪⽗父⽘爻⽙爿⽚片⽛牙⽜牛⽝犬⽞玄⽟玉⽠瓜⽡瓦⽢甘⽣生⽤用⽥田⽦疋⽧疒⽨癶⽩白⽪皮⽫皿⽬目⽭矛⽮矢⽯石⽰示⽱禸
        ⽲禾⽳穴⽴立⽵竹⽶米⽷糸⽸缶⽹网⽺羊⽻羽⽼老⽽而⽾耒⽿耳⾀聿⾁肉⾂臣⾃自⾄至⾅臼⾆舌⾇舛⾈舟⾉艮⾊色⾋艸⾌虍⾍虫⾎血
        ⾏行⾐衣⾑襾⾒見⾓角⾔言⾕谷⾖豆⾗豕⾘豸⾙貝⾚赤⾛走⾜足⾝身⾞車⾟辛⾠辰⾡辵⾢邑⾣酉⾤釆⾥里⾦金⾧長⾨門⾩阜⾪隶⾫隹
        ⾬雨⾭靑⾮非⾯面⾰革⾱韋⾲韭⾳音⾴頁⾵風⾶飛⾷食⾸首⾹香⾺馬⾻骨⾼高⾽髟⾾鬥⾿鬯⿀鬲⿁鬼⿂魚⿃鳥⿄鹵⿅鹿⿆麥⿇麻⿈黃
        ⿉黍⿊黑⿋黹⿌黽⿍鼎⿎鼓⿏鼠⿐鼻⿑齊⿒齒⿓龍⿔龜⿕龠豈豈更更車車賈賈滑滑串串句句龜龜龜龜契契金金喇喇奈奈懶懶癩癩羅羅
        蘿蘿螺螺裸裸邏邏樂樂洛洛烙烙珞珞落落酪酪駱駱亂亂卵卵欄欄爛爛蘭蘭鸞鸞嵐嵐濫濫藍藍襤襤拉拉臘臘蠟蠟廊廊朗朗浪浪狼狼郎郎
        來來冷冷勞勞擄擄櫓櫓爐爐盧盧老老蘆蘆虜虜路路露露魯魯鷺鷺碌碌祿祿綠綠菉菉錄錄鹿鹿論論壟壟弄弄籠籠聾聾牢牢磊磊賂賂雷雷
        壘壘屢屢樓樓淚淚漏漏累累縷縷陋陋勒勒肋肋凜凜凌凌稜稜綾綾菱菱陵陵讀讀拏拏樂樂諾諾丹丹寧寧怒怒率率異異北北磻磻便便復復
        不不泌泌數數索索參參塞塞省省葉葉說說殺殺辰辰沈沈拾拾若若掠掠略略亮亮兩兩凉凉梁梁糧糧良良諒諒量量勵勵呂呂女女廬廬旅旅
        濾濾礪礪閭閭驪驪麗麗黎黎力力曆曆歷歷轢轢年年憐憐戀戀撚撚漣漣煉煉璉璉秊秊練練聯聯輦輦蓮蓮連連鍊鍊列列劣劣咽咽烈烈裂裂
        說說廉廉念念捻捻殮殮簾簾獵獵令令囹囹寧寧嶺嶺怜怜玲玲瑩瑩羚羚聆聆鈴鈴零零靈靈領領例例禮禮醴醴隸隸惡惡了了僚僚寮寮尿尿
        料料樂樂燎燎療療蓼蓼遼遼龍龍暈暈阮阮劉劉杻杻柳柳流流溜溜琉琉留留硫硫紐紐類類六六戮戮陸陸倫倫崙崙淪淪輪輪律律慄慄栗栗
        率率隆隆利利吏吏履履易易李李梨梨泥泥理理痢痢罹罹裏裏裡裡里里離離匿匿溺溺吝吝燐燐璘璘藺藺隣隣鱗鱗麟麟林林淋淋臨臨立立
        笠笠粒粒狀狀炙炙識識什什茶茶刺刺切切度度拓拓糖糖宅宅洞洞暴暴輻輻行行降降見見廓廓兀兀嗀嗀塚塚晴晴凞凞猪猪益益礼礼神神
        祥祥福福靖靖精精羽羽蘒蘒諸諸逸逸都都飯飯飼飼館館鶴鶴郞郞隷隷侮侮僧僧免免勉勉勤勤卑卑喝喝嘆嘆器器塀塀墨墨層層屮屮悔悔
        慨慨憎憎懲懲敏敏既既暑暑梅梅海海渚渚漢漢煮煮爫爫琢琢碑碑社社祉祉祈祈祐祐祖祖祝祝禍禍禎禎穀穀突突節節練練縉縉繁繁署署
        者者臭臭艹艹艹艹著著褐褐視視謁謁謹謹賓賓贈贈辶辶逸逸難難響響頻頻恵恵舘舘並並况况全全侀侀充充冀冀勇勇勺勺喝喝啕啕喙喙
        嗢嗢塚塚墳墳奄奄奔奔婢婢嬨嬨廒廒廙廙彩彩徭徭惘惘慎慎愈愈憎憎慠慠懲懲戴戴揄揄搜搜摒摒敖敖晴晴朗朗望望杖杖歹歹殺殺流流
        滛滛滋滋漢漢瀞瀞煮煮瞧瞧爵爵犯犯猪猪瑱瑱甆甆画画瘝瘝瘟瘟益益盛盛直直睊睊着着磌磌窱窱節節类类絛絛練練缾缾者者荒荒華華
        蝹蝹襁襁覆覆視視調調諸諸請請謁謁諾諾諭諭謹謹變變贈贈輸輸遲遲醙醙鉶鉶陼陼難難靖靖韛韛響響頋頋頻頻鬒鬒龜龜㮝㮝䀘䀘䀹䀹
        齃齃龎龎
        """;

    // Before and behind an enclosed digit or letter: it is no part of the number beside it. White space that no number is grouped with.
    private const char Gap = '\u000B';

    private const string Alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

    private static readonly FrozenDictionary<char, string> Meanings = Words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
        .Concat(string.Concat(Pairs.Where(static c => c > ' ')).Chunk(2).Select(static pair => new string(pair)))
        .ToFrozenDictionary(static word => word[0], static word => word[1..]);

    /// <summary>The characters that this one stands for; null for others.</summary>
    public static string? Of(char c) => c switch
    {
        (>= '\u2460' and <= '\u24FF') => Enclosed(c),
        < '\u0130' or (>= '\u4E00' and < '\uF900') => null,
        _ => Meanings.GetValueOrDefault(c),
    };

    /// <summary>The plain letter or digit that a bold, italic or other mathematical one is (U+1D400 to U+1D7FF); null for others.</summary>
    public static char? OfMathematical(int codePoint) => codePoint switch
    {
        // Where a letter is missing in its alphabet it is one of the letter-like signs.
        >= 0x1D400 and < 0x1D6A4 when codePoint is not (0x1D455 or 0x1D49D or 0x1D4A0 or 0x1D4A1 or 0x1D4A3 or 0x1D4A4 or 0x1D4A7
            or 0x1D4A8 or 0x1D4AD or 0x1D4BA or 0x1D4BC or 0x1D4C4 or 0x1D506 or 0x1D50B or 0x1D50C or 0x1D515 or 0x1D51D
            or 0x1D53A or 0x1D53F or 0x1D545 or 0x1D547 or 0x1D548 or 0x1D549 or 0x1D551) => Alphabet[(codePoint - 0x1D400) % 52],
        >= 0x1D7CE and < 0x1D800 => (char)('0' + ((codePoint - 0x1D7CE) % 10)),
        _ => null,
    };

    // "①", "⑴", "⒈", "⒜", "Ⓐ".
    private static string? Enclosed(char c) => c switch
    {
        <= '\u2473' => $"{Gap}{c - '\u2460' + 1}{Gap}",
        <= '\u2487' => $"{Gap}({c - '\u2474' + 1}){Gap}",
        <= '\u249B' => $"{Gap}{c - '\u2488' + 1}.{Gap}",
        <= '\u24B5' => $"{Gap}({(char)(c - '\u249C' + 'a')}){Gap}",
        <= '\u24CF' => $"{Gap}{(char)(c - '\u24B6' + 'A')}{Gap}",
        <= '\u24E9' => $"{Gap}{(char)(c - '\u24D0' + 'a')}{Gap}",
        '\u24EA' => $"{Gap}0{Gap}",
        _ => null,
    };
}
