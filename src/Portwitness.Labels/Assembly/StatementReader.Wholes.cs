namespace Portwitness.Labels;

/// <content>Statements that are one piece.</content>
internal sealed partial class StatementReader
{
    private bool TakeCombination(CombinationPiece combination)
    {
        _isHeadingMissed |= _context.IsUnknown;
        return !_context.IsUnknown && (_context.IsInput || _open is { Direction: Direction.Input, IsDirectionOnly: true }
            ? _builder.AddInput(combination) : _builder.Add(combination));
    }

    // "45W+20W" below a condition, or "2C1A: 45W+10W+10W".
    private bool TakeSplit(SplitPiece split, int index, int end)
    {
        bool isOfKinds = !split.Kinds.IsEmpty;
        bool isClear = isOfKinds ? AtStart && !_context.IsUnknown && !_context.IsInput : _context.IsTogether;
        return isClear && IsWhole(index, end)
            && _builder.Add(split, isOfKinds ? 0 : _context.Condition!.Count, isOfKinds ? "" : _context.Condition!.Kind) && CloseAbove();
    }

    // "2.4A each, 5V⎓3A together" is of the ports in front; a total is the product's.
    private bool TakeTotal(TotalPiece total, int index, int end)
    {
        bool isOfLine = _open is { Ports.Length: > 1, Items.Count: > 0 } && _open.Line == _line && total.Watts is null;
        if (isOfLine && !_afterStrange && _builder.AddPool(total, _open!.Ports, _open))
        {
            return true;
        }

        if (_sheet.Add(total))
        {
            return true;
        }

        // "4 × USB-A: 5V⎓2.4A each, 30W total" is not the product's.
        bool isBehindPorts = _open is { Ports.IsEmpty: false, Direction: Direction.Output, Items.Count: > 0 } && _open.Line == _line && _portsOnLine == 1
            && _previous is not null && _tokens[total.First].SpaceBefore < 2;
        if (isBehindPorts && !_afterStrange && total.Watts is not null && EndsClearly(index + 1, end))
        {
            _builder.AddTotalOf(_open!, total);
            return true;
        }

        // "Together: 5V⎓5A" below the ratings of several ports, which are all that there are.
        int above = total is { IsShared: true, Watts: null } && AtStart && _open is { Ports.Length: > 1 } ports ? ports.Ports.Length : 0;
        bool isProducts = !total.IsShared || _context.Condition is not null || above > 0;
        int count = above > 0 ? above : _context.Condition is { } condition && _context.ConditionLine == _line ? condition.Count : 0;
        _isHeadingMissed |= _context.IsUnknown;
        return isProducts && MayBegin(total) && IsWhole(index, end) && !_context.IsInput && _builder.Add(total, count) && CloseAbove();
    }

    private bool TakeRemark(RemarkPiece remark, int index, int end)
    {
        bool isBehind = _previous is not null && !_afterStrange && (index + 1 == end || _pieces[index + 1] is SeparatorPiece)
            && _tokens[remark.First].Term != Term.Remark;
        if (isBehind)
        {
            _builder.AddRemark(remark.First..remark.End);
            return true;
        }

        // "Model TH-20 Input 100-240V~".
        bool isBeforeDirection = index + 1 < end && _pieces[index + 1] is HeaderPiece { Direction: not Direction.Unsaid, Ports.IsEmpty: true }
            && _tokens[_pieces[index + 1].First].SpaceBefore > 0 && AtStart;
        if (isBeforeDirection)
        {
            bool isRead = _open is not { Items.Count: 0 } && _builder.AddRemark(remark.First..remark.End) && CloseAbove();
            _afterSeparator = false;
            return isRead;
        }

        return MayBegin(remark) && IsWhole(index, end) && _builder.AddRemark(remark.First..remark.End) && CloseAbove();
    }

    private bool MayBegin(Piece piece) => AtStart || _afterSeparator || _tokens[piece.First].SpaceBefore > 1
        || (piece is BatteryPiece && (_previous is BatteryPiece || _tokens[piece.First].Kind == TokenKind.Word));

    // A statement that is one piece: no header waits before it, and nothing behind it may change what it says.
    private bool IsWhole(int index, int end)
    {
        bool isWaitedFor = _open is { Items.Count: 0 } && !(_open is { IsDirectionOnly: true } && _pieces[index] is CombinationPiece or TotalPiece);
        return !_afterStrange && !isWaitedFor && EndsClearly(index + 1, end);
    }

    private bool CloseAbove()
    {
        if (_open is { IsDirectionOnly: true })
        {
            _builder.MarkRead(_open.Headers);
        }

        Close();
        return true;
    }

    private bool EndsClearly(int next, int end) => next == end || _pieces[next] switch
    {
        SeparatorPiece separator => _tokens[separator.First].Kind is not (TokenKind.Slash or TokenKind.Word)
            || (next + 1 < end && _pieces[next + 1] is CombinationPiece),
        HeaderPiece header => header.IsMarked || !header.Ports.IsEmpty,
        CombinationPiece or TotalPiece or BatteryPiece or RemarkPiece or PadPiece or PerformancePiece => true,
        ConditionPiece condition => condition.IsMarked || next + 1 < end,
        _ => false,
    };
}
